"""Reads 3MF packages by lib3mf, the 3MF Consortium's own library, in its strict mode (Debian: lib3mf1). Status 3: not installed."""
import ctypes
import glob
import sys

found = sorted(glob.glob("/usr/lib/*/lib3[Mm][Ff].so*"))
if not found:
    sys.exit(3)
lib = ctypes.CDLL(found[0])


def must(result, what):
    if result != 0:
        sys.exit(f"{what}: lib3mf error {result & 0xFFFFFFFF:#x}")


for file in sys.argv[1:]:
    model, reader, meshes = ctypes.c_void_p(), ctypes.c_void_p(), ctypes.c_void_p()
    must(lib.lib3mf_createmodel(ctypes.byref(model)), file)
    must(lib.lib3mf_model_queryreader(model, b"3mf", ctypes.byref(reader)), file)
    must(lib.lib3mf_reader_setstrictmodeactive(reader, 1), file)
    must(lib.lib3mf_reader_readfromfileutf8(reader, file.encode()), file)
    warnings = ctypes.c_uint32()
    must(lib.lib3mf_reader_getwarningcount(reader, ctypes.byref(warnings)), file)
    must(lib.lib3mf_model_getmeshobjects(model, ctypes.byref(meshes)), file)
    count = sound = 0
    while True:
        more, mesh, manifold = ctypes.c_int(), ctypes.c_void_p(), ctypes.c_int()
        must(lib.lib3mf_resourceiterator_movenext(meshes, ctypes.byref(more)), file)
        if not more.value:
            break
        must(lib.lib3mf_resourceiterator_getcurrent(meshes, ctypes.byref(mesh)), file)
        must(lib.lib3mf_meshobject_ismanifoldandoriented(mesh, ctypes.byref(manifold)), file)
        count += 1
        sound += manifold.value != 0
    print(f"  {file}: {warnings.value} warnings, {sound} of {count} meshes manifold and oriented")
    if warnings.value or sound != count or count == 0:
        sys.exit(1)
