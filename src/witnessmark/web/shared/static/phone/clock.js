// The moment by this phone, told to the laptop when it joins.
"use strict";
document.addEventListener("submit", (event) => {
  const clock = event.target.elements?.clock;
  if (clock) clock.value = String(Math.floor(Date.now() / 1000));
}, true);
