/** Hands a drawn chart to the browser as a PNG file, on the colour of the page so that its ink can be read. */
export function takeChart(canvas: HTMLCanvasElement, name: string): void {
  const copy = document.createElement('canvas')
  Object.assign(copy, { width: canvas.width, height: canvas.height })
  const context = copy.getContext('2d')
  if (!context) return
  context.fillStyle = getComputedStyle(document.documentElement).backgroundColor
  context.fillRect(0, 0, copy.width, copy.height)
  context.drawImage(canvas, 0, 0)
  const link = document.createElement('a')
  link.href = copy.toDataURL('image/png')
  link.download = `${name.toLowerCase().replace(/[^a-z0-9]+/g, '-')}.png`
  link.click()
}
