# Runs inside the converter's own Python: turns documents into PDF one after another, so that it starts once for all of
# them. Input, for each: a line "PAGE SIZE", then that many bytes of HTML. Output, for each: a line SIZE, then the PDF.
import gc
import io
import sys


def convert(size, html):
    from weasyprint.__main__ import main
    made = io.BytesIO()
    main(["-q", "--pdf-variant", "pdf/ua-1", "-e", "utf-8",
          "-s", "data:text/css,@page{size:%s}" % size, "-", "-"],
         stdin=io.BytesIO(html), stdout=made)
    return made.getvalue()


def all_of_them():
    gc.disable()  # a run is short; looking for garbage is a quarter of it
    into, out = sys.stdin.buffer, sys.stdout.buffer
    while head := into.readline().split():
        pdf = convert(head[0].decode(), into.read(int(head[1])))
        out.write(b"%d\n" % len(pdf))
        out.write(pdf)
        out.flush()


# A frame wider than Python's 16 kB pieces of stack gets one piece for itself and all calls below it: else a call that
# falls on the edge of a piece maps and unmaps memory each time, a third of the whole run.
def roomy(go):
    return go()


try:
    roomy.__code__ = roomy.__code__.replace(co_stacksize=40000)
except (AttributeError, ValueError):
    pass
roomy(all_of_them)
