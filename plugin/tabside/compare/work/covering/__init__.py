"""What lies over joints and bare ends: covers, tubes, tape."""
