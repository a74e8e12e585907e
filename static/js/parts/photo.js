// Shows the chosen photo before it is sent, and says at once when it is too large to send.

const MOST_BYTES = 40 * 1024 * 1024;

export function start(part) {
  const box = part.querySelector("input[type=file]");
  const seen = part.querySelector(".photo-seen");
  const said = part.querySelector(".field-said");

  box.addEventListener("change", () => {
    URL.revokeObjectURL(seen.src);
    const [photo] = box.files;
    const tooLarge = photo && photo.size > MOST_BYTES;
    said.hidden = !tooLarge;
    said.textContent = tooLarge
      ? `This photo has ${Math.round(photo.size / 1048576)} MB; at most 40 can be sent. Take it again in a smaller size.`
      : "";
    if (tooLarge) box.value = "";
    seen.hidden = !photo || tooLarge;
    if (!seen.hidden) seen.src = URL.createObjectURL(photo);
  });
  seen.addEventListener("error", () => { seen.hidden = true; });
}
