// Photographs by the phone's own camera, through a file field: the file is kept as the phone hands it
// over. A phone of one maker hands over JPEG whatever it keeps for itself; that JPEG is the original.
import { make } from "./parts.js";

// Resolves with what was chosen, several where the phone lets one; with none where it was left.
export function askPicture() {
  return new Promise((done) => {
    const field = make("input", { type: "file", accept: "image/jpeg,image/png,image/*", capture: "environment", multiple: true, class: "camera-field", "aria-label": "Photographs" });
    field.hidden = true;
    const end = (files) => { field.remove(); done([...files]); };
    field.addEventListener("change", () => end(field.files));
    field.addEventListener("cancel", () => end([]));
    document.body.append(field);
    field.click();
  });
}
