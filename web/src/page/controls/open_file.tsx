// A button that opens a file.
import { useRef } from "preact/hooks";

interface OpenFileProps {
  /** Of the button. */
  readonly id: string;
  readonly label: string;
  readonly accept: string;
  readonly open: (file: File) => void;
  /** A telephone takes a photograph with the camera that looks away from its user. */
  readonly camera?: boolean;
}

export function OpenFile({ id, label, accept, open, camera = false }: OpenFileProps) {
  const entry = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" class="button" id={id} onClick={() => entry.current?.click()}>
        {label}
      </button>
      <input
        ref={entry}
        type="file"
        class="visually-hidden"
        tabIndex={-1}
        aria-hidden="true"
        data-open={id}
        accept={accept}
        {...(camera ? { capture: "environment" as const } : {})}
        onChange={(event) => {
          const file = event.currentTarget.files?.[0];
          event.currentTarget.value = "";
          if (file) open(file);
        }}
      />
    </>
  );
}
