// A button that opens a file.
import { useRef } from "preact/hooks";

interface OpenFileProps {
  /** Of the button. */
  readonly id: string;
  readonly label: string;
  readonly accept: string;
  readonly open: (file: File) => void;
  /** What the entry of files is called, where the button's id is that of a job's field. */
  readonly entry?: string;
  /** Other classes of the button. */
  readonly look?: string;
  /** A telephone takes a photograph with the camera that looks away from its user. */
  readonly camera?: boolean;
}

export function OpenFile({ id, label, accept, open, entry = id, look = "button", camera = false }: OpenFileProps) {
  const files = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" class={look} id={id} onClick={() => files.current?.click()}>
        {label}
      </button>
      <input
        ref={files}
        type="file"
        class="visually-hidden"
        tabIndex={-1}
        aria-hidden="true"
        data-open={entry}
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
