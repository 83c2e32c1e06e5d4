/** A film of pictures by the browser's own encoder, which works in real time: it lasts as long as it shows. */
const FRAMES_A_SECOND = 25
const TYPES = ['video/webm;codecs=vp9', 'video/webm;codecs=vp8', 'video/webm']

export interface Film {
  readonly width: number
  readonly height: number
  /** How long the film is, s. */
  readonly length_s: number
  /** The picture at a share (0 to 1) of the film, as SVG. */
  readonly svgAt: (share: number) => string
}

/** Whether this browser can make films. */
export function canFilm(): boolean {
  return typeof MediaRecorder !== 'undefined' && typeOf() !== undefined
}

const typeOf = () => TYPES.find((type) => MediaRecorder.isTypeSupported(type))

/** Makes the film; `onProgress` is told the share done. Stopped by the signal, it gives nothing. */
export async function makeFilm(
  { width, height, length_s, svgAt }: Film,
  onProgress: (share: number) => void,
  signal: AbortSignal,
): Promise<Blob | undefined> {
  const canvas = document.createElement('canvas')
  Object.assign(canvas, { width, height })
  const context = canvas.getContext('2d')
  if (!context) throw new Error('This browser draws no pictures, so there is nothing to film.')
  const stream = canvas.captureStream(0)
  const [track] = stream.getVideoTracks() as CanvasCaptureMediaStreamTrack[]
  const recorder = new MediaRecorder(stream, { mimeType: typeOf() ?? '', videoBitsPerSecond: 4e6 })
  const parts: Blob[] = []
  recorder.addEventListener('dataavailable', ({ data }) => parts.push(data))
  const ended = new Promise((resolve) => recorder.addEventListener('stop', resolve))
  const frames = Math.max(1, Math.round(length_s * FRAMES_A_SECOND))
  const started = performance.now()
  recorder.start()
  for (let i = 0; i <= frames && !signal.aborted; i++) {
    context.drawImage(await pictureOf(svgAt(i / frames)), 0, 0, width, height)
    track?.requestFrame()
    onProgress(i / frames)
    await until(started + ((i + 1) * 1000) / FRAMES_A_SECOND)
  }
  recorder.stop()
  await ended
  return signal.aborted ? undefined : new Blob(parts, { type: 'video/webm' })
}

/** An SVG as a picture that a canvas takes. */
async function pictureOf(svg: string): Promise<HTMLImageElement> {
  const image = new Image()
  image.src = `data:image/svg+xml,${encodeURIComponent(svg)}`
  await image.decode()
  return image
}

/** An SVG as a PNG file of its own size. */
export async function pngOf(svg: string): Promise<Blob> {
  const image = await pictureOf(svg)
  const canvas = document.createElement('canvas')
  Object.assign(canvas, { width: image.naturalWidth, height: image.naturalHeight })
  canvas.getContext('2d')?.drawImage(image, 0, 0)
  return new Promise((resolve, reject) =>
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error('No picture was made.')))),
  )
}

function until(time_ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, Math.max(0, time_ms - performance.now())))
}
