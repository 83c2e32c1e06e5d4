import { onBeforeUnmount, onMounted, ref } from 'vue'

const read = () => window.location.hash.split('/').slice(1).join('/')

/** What stands in the address behind the place: "compare" of "#class/compare"; empty if nothing. */
export function useHashRest() {
  const rest = ref(read())
  const follow = () => {
    rest.value = read()
  }
  onMounted(() => window.addEventListener('hashchange', follow))
  onBeforeUnmount(() => window.removeEventListener('hashchange', follow))
  return rest
}
