// Package browsertest drives the page in a real browser against a real
// server with the real book. It holds tests only.
//
// The tests need Chromium, and axe-core's axe.min.js at the path that
// SPAREHAND_AXE names. What is missing is skipped with a line that says so;
// with SPAREHAND_TEST_ALL=1 it is a failure. SPAREHAND_SHOTS names a folder to
// keep the screenshots in.
package browsertest
