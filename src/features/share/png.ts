import { pictureAddress } from '../../charts'

const SCALE = 2

/** An SVG drawn at twice its size. */
export async function pngOf(svg: string, width: number, height: number): Promise<Blob> {
  const image = new Image()
  image.src = pictureAddress(svg)
  await image.decode()
  const canvas = document.createElement('canvas')
  canvas.width = width * SCALE
  canvas.height = height * SCALE
  canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height)
  return new Promise((resolve, reject) =>
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error('no picture'))), 'image/png'),
  )
}
