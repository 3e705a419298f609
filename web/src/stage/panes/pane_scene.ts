/** One pane: the pieces that hang together, the shadow of all of them, and the look that they are seen with. */

import { Group, type Texture } from "three";
import type { FoldOnGpu } from "../piece/fold_on_gpu";
import { apart, type Hung } from "./hanging";
import type { Ray } from "../room/light";
import type { LookTables } from "../look/tables_on_gpu";
import { LookOnGpu } from "../look/look_on_gpu";
import type { PieceShape } from "../piece/piece_shape";
import { type PieceScene, pieceScene } from "../piece/piece_scene";
import { type ShadowScene, shadowScene } from "../room/shadow_scene";
import type { StagePiece } from "../types";
import type { SharedUniforms } from "../drawing/uniforms";
import type { Hanging } from "../camera/views";

/** A piece with what it shares with others. */
export interface SharingPiece {
  readonly piece: StagePiece;
  readonly fold: FoldOnGpu;
  readonly texture: Texture;
}

/** A piece as it hangs. */
interface HungPiece extends Hung {
  readonly fold: FoldOnGpu;
  readonly shape: PieceShape;
}

export class PaneScene {
  readonly group = new Group();
  readonly look: LookOnGpu;
  readonly shadow: ShadowScene;
  hung: readonly HungPiece[] = [];
  private scenes: PieceScene[] = [];

  constructor(
    private readonly shared: SharedUniforms,
    tables: LookTables,
    rays: readonly Ray[],
  ) {
    this.look = new LookOnGpu(tables);
    this.shadow = shadowScene(rays);
    this.group.visible = false;
    this.group.matrixWorldAutoUpdate = false;
  }

  /** Show these pieces; whether any of them is of another shape than before, or hangs elsewhere. */
  setPieces(pieces: readonly SharingPiece[]): boolean {
    while (this.scenes.length > pieces.length) this.removeLast();
    pieces.forEach(({ piece, fold, texture }, i) => this.sceneAt(i).setPiece(piece, fold, texture));
    const before = this.hung;
    this.hung = pieces.map(({ piece, fold }) => ({ fold, shape: fold.shape, centreMm: piece.centreMm }));
    const moved =
      before.length !== this.hung.length ||
      this.hung.some(({ fold, centreMm }, i) => {
        const former = before[i];
        return former?.fold !== fold || former.centreMm[0] !== centreMm[0] || former.centreMm[1] !== centreMm[1];
      });
    if (moved) {
      this.shadow.setCasters(
        this.hung.map(({ shape }) => ({ moving: shape.corners.length / 3, still: shape.bars.positions })),
      );
    }
    return moved;
  }

  /** Hang every piece about the middle of `hanging`, as its fold now is. */
  hang({ centre }: Hanging): void {
    const times = apart(
      this.hung,
      this.hung.map(({ shape }) => shape.overMm),
    );
    const moved = this.hung.map(({ shape, centreMm }, i) => {
      const { faceWidthMm, faceHeightMm } = shape.sizes;
      const originM: [number, number, number] = [
        centre[0] + (centreMm[0] * times - faceWidthMm / 2) / 1000,
        centre[1] + (centreMm[1] * times - faceHeightMm / 2) / 1000,
        shape.offMm / 1000,
      ];
      this.scenes[i]?.hangAt(originM);
      return { originM, corners: shape.corners };
    });
    this.shadow.move(moved);
  }

  /** Free the memory on the graphics processor; the next drawing uploads what it needs. */
  dispose(): void {
    for (const scene of this.scenes) scene.dispose();
    this.shadow.dispose();
    this.look.dispose();
  }

  private sceneAt(index: number): PieceScene {
    const known = this.scenes[index];
    if (known !== undefined) return known;
    const made = pieceScene(this.shared, this.look);
    this.scenes.push(made);
    this.group.add(made.group);
    return made;
  }

  private removeLast(): void {
    const last = this.scenes.pop();
    if (last === undefined) return;
    this.group.remove(last.group);
    last.dispose();
  }
}
