"""Line drawings of the tools and supplies that stand on the bench."""
