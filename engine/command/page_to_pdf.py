"""Reads a page from standard input and writes it as a PDF to standard output.

Whatever the page holds, nothing is fetched: neither from the network nor from this computer's files.
"""

import sys

import weasyprint


def refuse(url, *_):
    raise ValueError("nothing is fetched")


page = weasyprint.HTML(string=sys.stdin.buffer.read().decode("utf-8"), url_fetcher=refuse)
sys.stdout.buffer.write(page.write_pdf())
