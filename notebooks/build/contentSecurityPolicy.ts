/**
 * What a built page may do: run its own scripts and nothing else. It cannot reach a network, so that readings cannot leave the machine on which
 * they were typed.
 *
 * Trials make code for WebAssembly (`lib/uncertainty/kernels`), which computes and can do nothing else; text never becomes code. Inline styles are
 * allowed because figures carry theirs in their SVG; `blob:` workers because the page that is one file has no other place to keep a worker.
 */
export function contentSecurityPolicy(scripts: string): string {
  return [
    "default-src 'none'",
    `script-src ${scripts} 'wasm-unsafe-eval'`,
    "style-src 'self' 'unsafe-inline'",
    "img-src data: blob:",
    "connect-src 'none'",
    "worker-src blob: 'self'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
}
