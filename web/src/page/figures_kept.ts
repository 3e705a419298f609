// Whatever the page shows passes here once: a figure stays in one line with its unit.
import { type ComponentChildren, Fragment, options } from "preact";
import { unparted } from "../speech/figures";

/** An option's text may be its value, and a table's narrow columns need every place where a line may end. */
const AS_THEY_ARE: ReadonlySet<string> = new Set(["option", "td"]);

function kept(children: ComponentChildren): ComponentChildren {
  if (typeof children === "string") return unparted(children);
  return Array.isArray(children) ? children.map(kept) : children;
}

/** Begin with it, before the first element is made. */
export function keepFigures(): void {
  const former = { ...options };
  options.vnode = (made) => {
    const { props, type } = made;
    // What a component is given is its own affair until an element shows it.
    if ((typeof type === "string" && !AS_THEY_ARE.has(type)) || type === Fragment) {
      if (props.children !== undefined) props.children = kept(props.children);
    }
    former.vnode?.(made);
  };
}
