"""The served feed and pages."""
