// A button that takes a file from the device.
export function FileButton({label, accept, disabled, onFile}) {
  const take = async (e) => {
    const [file] = e.currentTarget.files;
    e.currentTarget.value = '';
    if (file) onFile(file.name, new Uint8Array(await file.arrayBuffer()));
  };
  return <label class="button">{label}<input type="file" accept={accept} disabled={disabled} onChange={take} /></label>;
}
