// Pictures that the core has drawn, and whether they are on the screen.
import { useEffect, useRef } from "preact/hooks";
import type { Signal } from "@preact/signals";

/** As large as there is room. */
export function SmallPicture({ image }: { readonly image: ImageData }) {
  return <canvas class="picture" ref={usePixels(image)} width={image.width} height={image.height} />;
}

/** One pixel of the screen for each of the picture's. */
export function TruePicture({ image, label }: { readonly image: ImageData; readonly label: string }) {
  const inlineSize = `${image.width / devicePixelRatio}px`;
  return (
    <canvas
      class="true-picture"
      role="img"
      aria-label={label}
      ref={usePixels(image)}
      width={image.width}
      height={image.height}
      style={{ inlineSize }}
    />
  );
}

function usePixels(image: ImageData) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => canvas.current?.getContext("2d")?.putImageData(image, 0, 0), [image]);
  return canvas;
}

/** A little before it comes on to the screen, what is seen there may be drawn. */
const MARGIN = "200px 0px";

/** An element's ref; the signal says whether it is on the screen. */
export function useSeen(seen: Signal<boolean>) {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const element = place.current;
    if (element === null) return;
    const observer = new IntersectionObserver((entries) => (seen.value = entries.at(-1)?.isIntersecting ?? false), {
      rootMargin: MARGIN,
    });
    observer.observe(element);
    return () => {
      observer.disconnect();
      seen.value = false;
    };
  }, [seen]);
  return place;
}
