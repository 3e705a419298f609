// The flat canvas's pixels on the drawing of the sheet.
import { useEffect, useRef } from "preact/hooks";
import type { StageTexture } from "../../stage/types";
import type { Placing } from "./placing";

interface FlatTextureProps {
  readonly texture: StageTexture;
  readonly placing: Placing;
}

export function FlatTexture({ texture, placing }: FlatTextureProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const { widthPx, heightPx } = texture;
  useEffect(() => {
    const pixels = new Uint8ClampedArray(texture.pixels);
    canvas.current?.getContext("2d")?.putImageData(new ImageData(pixels, widthPx, heightPx), 0, 0);
  }, [texture]);
  const { canvas: on, turned } = placing;
  // The unturned canvas about the same middle; a quarter clockwise lays it as it is placed.
  const [width, height] = turned ? [on.height, on.width] : [on.width, on.height];
  return (
    <canvas
      ref={canvas}
      class="flat-texture"
      width={widthPx}
      height={heightPx}
      role="img"
      aria-label="The flat canvas as it is printed"
      style={{
        left: `${on.x + (on.width - width) / 2}px`,
        top: `${on.y + (on.height - height) / 2}px`,
        width: `${width}px`,
        height: `${height}px`,
        transform: turned ? "rotate(90deg)" : "none",
      }}
    />
  );
}
