/** The camera's motion: where it is, its goal, and how it glides there. */

import { atRest, damp, type Damped } from "./damper";
import { hold, type Limits, nearestTurn, type Pose } from "./orbit";

const GLIDE_S = 0.13;
const TOLERANCE = 2e-4;

/** Azimuth, elevation, log of the distance (so that zooming feels even), target. */
function toNumbers(pose: Pose): number[] {
  return [pose.azimuthRad, pose.elevationRad, Math.log(pose.distanceM), ...pose.target];
}

function toPose(numbers: readonly number[]): Pose {
  const [azimuthRad = 0, elevationRad = 0, logDistance = 0, x = 0, y = 0, z = 0] = numbers;
  return { azimuthRad, elevationRad, distanceM: Math.exp(logDistance), target: [x, y, z] };
}

export class CameraMotion {
  private goalPose: Pose;
  private state: Damped[];

  constructor(
    start: Pose,
    private limits: Limits,
    private readonly jump: boolean,
  ) {
    this.goalPose = hold(start, limits);
    this.state = toNumbers(this.goalPose).map((value) => ({ value, speed: 0 }));
  }

  get goal(): Pose {
    return this.goalPose;
  }

  /** Where the camera is now. */
  get pose(): Pose {
    return toPose(this.state.map((s) => s.value));
  }

  /** Go there the short way round. */
  go(pose: Pose): void {
    const azimuthRad = nearestTurn(pose.azimuthRad, this.pose.azimuthRad);
    this.steer({ ...pose, azimuthRad });
  }

  /** Set the goal directly: the azimuth stays as given. */
  steer(pose: Pose): void {
    this.goalPose = hold(pose, this.limits);
    if (this.jump) this.arrive();
  }

  setLimits(limits: Limits): void {
    this.limits = limits;
    this.steer(this.goalPose);
  }

  /** Be there at once. */
  arrive(): void {
    this.state = toNumbers(this.goalPose).map((value) => ({ value, speed: 0 }));
  }

  /** Glide for a while; whether it still moves. */
  step(dtS: number): boolean {
    const goal = toNumbers(this.goalPose);
    if (this.state.every((s, i) => atRest(s, goal[i] ?? 0, TOLERANCE))) {
      this.arrive();
      return false;
    }
    this.state = this.state.map((s, i) => damp(s, goal[i] ?? 0, GLIDE_S, dtS));
    return true;
  }
}
