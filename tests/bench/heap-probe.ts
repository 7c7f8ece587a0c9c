/** Loaded into the server with `-r`: on SIGUSR2 collects twice and tells the heap in use on standard error. */
process.on('SIGUSR2', () => {
  globalThis.gc?.();
  globalThis.gc?.();
  process.stderr.write(`heap ${process.memoryUsage().heapUsed}\n`);
});
