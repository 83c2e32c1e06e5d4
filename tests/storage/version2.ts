import { openDB } from 'idb'
import content from './version2.json'

export const VERSION_2 = content

/** A database as the app made it before items had one table, with everything in it that a user can have kept. */
export async function makeVersion2(): Promise<void> {
  const db = await openDB('taperwright', 2, {
    upgrade(made) {
      made.createObjectStore('formulas', { keyPath: 'id' })
      made.createObjectStore('settings')
      made.createObjectStore('versions', { keyPath: ['id', 'revision'] })
      made.createObjectStore('shed', { keyPath: 'id' })
    },
  })
  for (const name of ['formulas', 'versions', 'shed'] as const)
    for (const record of content[name]) await db.put(name, record)
  for (const [key, value] of Object.entries(content.settings)) await db.put('settings', value, key)
  db.close()
}
