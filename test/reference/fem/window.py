"""A window alone, static (k = 0, Laplace) finite elements, half models (y >= 0), bore radius 1: what leaving the plug that closes the bore at the
window's upstream end takes off the window's length. P2 tetrahedra, two meshes, h^(4/3) extrapolated; helpers of single.py.
Run in this folder: python3 window.py, writes window.json. `length`: inertance length on the bore's section from the top of the window's chimney,
driven by a piston, to a place downstream where p = 0, less that place's distance from the window's middle. W width, l cut-up, t wall on the
window's middle line, s from the plug to the window's upstream end. Only differences between plugs of one window mean anything."""
import sys; sys.path.insert(0,'.')
from single import *
def window_model(W,l,t,s,h,LB=5.):
    """half model (y>=0), bore radius 1 from a plug `s` before the window's upstream end; x = 0 at the window's middle; piston at the top of the
    window's chimney, p = 0 at x = LB: inertance length on the bore's section, less LB"""
    o=start(); x0=-l/2-s; top=1+t
    half=lambda tag:[v for _,v in o.intersect([(3,tag)],[(3,o.addBox(-20,0,-9,40,9,18))])[0]]
    tube=half(o.addCylinder(x0,0,0,LB-x0,0,0,1))
    ch=o.cut([(3,o.addBox(-l/2,0,0,l,W/2,top))],[(3,tube[0])],removeTool=False)[0]
    _,mp=o.fragment([(3,tube[0])],ch); o.synchronize(); vb,vc=[m[0][1] for m in mp]; tidy(o)
    inter=[q for q in bnd(vc) if q in bnd(vb)]
    mesh([(sorted(set(off(sum([cur(q) for q in inter],[]),False))),min(W,l)/2)],h,.25,.3)
    X,vol,tri=data(); K=sum(assemble_vol(X,vol(v),11,3)[0] for v in (vb,vc)); n=len(X)
    ends=np.where(X[:,0]>LB-1e-7)[0]
    pis=[q for q in bnd(vc) if bb(q)[2]>top-1e-4]; assert len(pis)==1
    _,_,f=assemble_surf(X,tri(pis),9,3); S=f.sum(); p=static(K,f/S/2,ends); gmsh.finalize()
    return n,(f@p)/S*np.pi-LB
if __name__=='__main__':
    out=json.load(open('window.json')) if os.path.exists('window.json') else {}
    for W,l,t in ((.8,.5,.4),(1.3,.5,.4),(1.2,.8,.4),(1.,.35,.4),(1.125,.625,.4375),(1.,.5,.7)):
        for s in (0,.08,.2,.4,.7,1.2,2.,3.5):
            k='W%g l%g t%g s%g'%(W,l,t,s)
            if k in out: continue
            t0=time.time(); x,f,n=two(window_model,W,l,t,s); out[k]=dict(length=x,fine=f); print(k,'%.5f fine %.5f n %d %.0fs'%(x,f,n,time.time()-t0),flush=True); json.dump(out,open('window.json','w'),indent=1)
