"""What each lead needs: ends, gauge, length."""
