"""Two holes near each other in one bore, static (k = 0, Laplace) finite elements of half models (y >= 0), bore radius 1, as single.py.
  coupling  two open holes opposite each other, their centres z apart along the bore: mean pressure at the inner face of the one for a unit flow into the
            other, less the plane wave's, over (jk rho c)
  turn      an open hole fed by a piston and a closed one of depth .36, z downstream, opposite or on the same side: share of the outflow by which the flow
            that the closed hole's series length feels differs from the plane wave's; from how the flow divides between two bores of length 4
Run in this folder, prepared as the README there says: python3 opposite.py, writes opposite.json, some 5 minutes."""
import sys; sys.path.insert(0,'.')
from single import *
def model(b,z,depth,side,h):
    """bore from -LB to LB, holes of radius b: one up at x = 0, the other `depth` deep at x = z, up (side 1) or down (-1); matrices and surfaces"""
    o=start(); Q=(-20,0,-9,40,9,18); t=2*b
    tube=cut_to(o,[o.addCylinder(-LB,0,0,2*LB,0,0,1)],Q)
    rods=[cut_to(o,[o.addCylinder(0,0,.2,0,0,.8+t,b)],Q)[0],cut_to(o,[o.addCylinder(z,0,.2 if side>0 else -1-depth,0,0,.8+depth,b)],Q)[0]]
    holes=[x for c in rods for _,x in o.cut([(3,c)],[(3,tube[0])],removeTool=False)[0]]
    _,mp=o.fragment([(3,tube[0])],[(3,c) for c in holes]); o.synchronize(); vb=mp[0][0][1]; vc=[m[0][1] for m in mp[1:]]; tidy(o)
    rim=sorted(set(off(sum([cur(s) for v in vc for s in bnd(v) if s in bnd(vb)],[]),False)))
    mesh([(rim,b)],h,.25,.3)
    X,vol,tri=data(); K=sum(assemble_vol(X,vol(v),11,3)[0] for v in [vb]+vc)
    face=lambda top:assemble_surf(X,tri([s for v in vc for s in bnd(v) if top(bb(s))]),9,3)[2]
    return X,K,face(lambda e:e[2]>1+t-1e-4),face
def coupling(b,z,h):
    X,K,f,face=model(b,z,2*b,-1,h); g=face(lambda e:e[5]<-1-2*b+1e-4)
    left,right=X[:,0]<-LB+1e-7,X[:,0]>LB-1e-7
    p=static(K,f/f.sum()/2,np.where(left|right)[0]); gmsh.finalize()
    plane=LB*(LB-z)/(2*LB)/np.pi   # of a source at 0 between two ends at p = 0, heard at z
    return len(X),(g@p)/g.sum()-plane
SERIES={.45:-.02565}   # one closed hole of depth .36 alone: single.bore_model(.45,.45,.36,0,want='series',closed=True)
def turn(b,z,side,h):
    X,K,f,_=model(b,z,.36,side,h); right=np.where(X[:,0]>LB-1e-7)[0]
    p=static(K,f/f.sum()/2,np.where(abs(X[:,0])>LB-1e-7)[0]); r=-2*(K@p)[right].sum(); gmsh.finalize()
    return len(X),r-LB*(1-2*r)/SERIES[b]   # LB u_left = LB u_right + t_a (u_right - share)
if __name__=='__main__':
    out=dict(coupling={},turn={})
    for b in (.3,.45,.6):
        for z in (0,.25,.5,1.,1.6): out['coupling']['b%g z%g'%(b,z)]=two(coupling,b,z,p=EDGE)[0]
    for side,zs in ((-1,(.25,.5,1.,1.5)),(1,(1.1,1.6,2.2))):
        for z in zs: out['turn']['b0.45 z%g %s'%(z,'same side' if side>0 else 'opposite')]=two(turn,.45,z,side,p=EDGE)[0]
    json.dump(out,open('opposite.json','w'),indent=1); print(json.dumps(out,indent=1))
