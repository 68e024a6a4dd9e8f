// "Only with X, without Y" worked out from what is known of the options (output/applies.h): true, false, or null where
// that is not known.
const both = (a, b) => (a === false || b === false ? false : a === null || b === null ? null : true);
const either = (a, b) => (a === true || b === true ? true : a === null || b === null ? null : false);

// `has[i]`: whether option i is there; null where nobody has said.
function applies(postfix, has) {
  const stack = [];
  for (const word of postfix.split(" ")) {
    switch (word) {
      case "yes": stack.push(true); break;
      case "no": stack.push(false); break;
      case "?": stack.push(null); break;
      case "not": { const a = stack.pop(); stack.push(a === null ? null : !a); break; }
      case "and": stack.push(both(stack.pop(), stack.pop())); break;
      case "or": stack.push(either(stack.pop(), stack.pop())); break;
      default: stack.push(has[Number(word)] ?? null);
    }
  }
  return stack.pop();
}
