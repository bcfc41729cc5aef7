// Numbers as packed_numbers.hpp writes them.
function unpackNumbers(text, decimals) {
  const bytes = atob(text);
  const scale = Math.pow(10, decimals);
  const values = [];
  let now = 0;
  for (let k = 0; k < bytes.length; ) {
    // Multiplied, not shifted: a shift ends at 32 bits.
    let zigzag = 0;
    let place = 1;
    let byte = 0;
    do {
      byte = bytes.charCodeAt(k++);
      zigzag += (byte & 0x7f) * place;
      place *= 128;
    } while (byte & 0x80);
    now += zigzag % 2 === 1 ? -(zigzag - 1) / 2 - 1 : zigzag / 2;
    values.push(now / scale);
  }
  return Float64Array.from(values);
}
