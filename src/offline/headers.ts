/** No script, style or connection from elsewhere, and none written into the page. Pictures may be made here. */
export const POLICY = [
  "default-src 'self'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ')

/** What a server sends with every file. Only a header can say who may show the page in a frame. */
export const HEADERS = {
  'Content-Security-Policy': `${POLICY}; frame-ancestors 'none'`,
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
} as const

/** The headers in the words of a server's configuration (nginx), for people who serve the app to others. */
export const serverConfiguration = (): string =>
  [
    '# Headers to send with every file of Taperwright (nginx). Include this file in its server block.',
    ...Object.entries(HEADERS).map(([name, value]) => `add_header ${name} "${value}" always;`),
    '',
  ].join('\n')
