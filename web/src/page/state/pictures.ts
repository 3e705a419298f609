// The bytes of the pictures opened since the page was loaded, so that undo can bring a former one back.

export interface PictureFile {
  readonly name: string;
  readonly blob: Blob;
}

const pictures = new Map<number, PictureFile>();
let last = 0;

/** Keep a picture; the number stands for it from now on. */
export function keepPicture(file: PictureFile): number {
  last += 1;
  pictures.set(last, file);
  return last;
}

export function pictureFile(id: number): PictureFile | undefined {
  return pictures.get(id);
}
