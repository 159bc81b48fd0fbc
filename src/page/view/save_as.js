/* Gives bytes to the browser as a file of that name. */
export function saveAs(name, type, bytes) {
  const address = URL.createObjectURL(new Blob([bytes], {type}));
  const link = Object.assign(document.createElement('a'), {href: address, download: name});
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
