export { default as BackupView } from './BackupView.vue'
export { default as VersionsView } from './VersionsView.vue'
