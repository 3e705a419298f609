"""Many canvases on sheets or rolls: where each lies, how they are cut apart, what it costs."""
