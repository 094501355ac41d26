/** Hands a text to the reader as a file, made here, so that it works without a network. */
export function saveFile(name: string, text: string, type: string): void {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // the browser has taken it over by then
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
