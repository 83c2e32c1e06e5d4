import { onBeforeUnmount, onMounted, shallowRef } from 'vue'

/** What stands behind the place in the address: "more" of "#place/more". */
export function useAddressRest() {
  const rest = shallowRef(restOf(window.location.hash))
  const follow = () => (rest.value = restOf(window.location.hash))
  onMounted(() => window.addEventListener('hashchange', follow))
  onBeforeUnmount(() => window.removeEventListener('hashchange', follow))
  return rest
}

function restOf(hash: string): string {
  const slash = hash.indexOf('/')
  return slash < 0 ? '' : hash.slice(slash + 1)
}
