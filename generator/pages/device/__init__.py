"""What the device keeps."""
