// Judges pictures beside the page, so that no thumb waits for it.
import { advised, measured } from "./judging.js";
self.addEventListener("message", ({ data }) => self.postMessage({ id: data.id, found: advised(measured(data.picture, data.region)) }));
