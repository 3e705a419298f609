"""The piece on a photographed wall: corners, homography, pose, uncertainty, light, the drawn canvas."""
