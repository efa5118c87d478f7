"""A vessel's window with the labium a printed head has, and with none: static finite elements, half models (y >= 0). The wall is flat and `wall` thick,
the cavity below and free space above; the cut-up is 1. Inertance between a hemisphere of radius FAR in the cavity and one outside, times the window's area.
  straight   four parallel walls
  ramp       the labium sharpened down to the cavity's side and rising at 17 degrees to the outside, as wide as the window
  printed    the same with a blunt edge from `low` to `high` above the cavity's side, cut away below at 35 degrees
P2 tetrahedra, two meshes extrapolated with h^1.17."""
import sys; sys.path.insert(0,'.')
from single import *
FAR=9.
def model(W,t,kind,h,low=0.,high=0.,ramp=17.,relief=35.):
    o=start(); T=lambda a:np.tan(np.radians(a)); l=1.; e=.4
    if kind=='straight': p=[(0,-e),(0,t+e),(l,t+e),(l,-e)]
    else: p=[(0,-e),(0,t+e),(l+(t+e-high)/T(ramp),t+e),(l,high)]+([(l,low)] if high>low else [])+([(l+(low+e)/T(relief),-e)] if low>0 else [(l,-e)])
    q=[o.addPoint(x,-W/2,z) for x,z in p]; s=o.addPlaneSurface([o.addCurveLoop([o.addLine(q[i],q[(i+1)%len(q)]) for i in range(len(q))])])
    ch=[v for d,v in o.extrude([(2,s)],0,W,0) if d==3][0]
    slab=o.addBox(-20,-20,0,40,40,t)
    ch=[v for d,v in o.intersect([(3,ch)],[(3,slab)])[0]]
    low_=o.intersect([(3,o.addSphere(.5,0,0,FAR))],[(3,o.addBox(-20,-20,-20,40,40,20))])[0][0][1]
    up=o.intersect([(3,o.addSphere(.5,0,t,FAR))],[(3,o.addBox(-20,-20,t,40,40,20))])[0][0][1]
    Q=(-20,0,-20,40,20,40)
    ch=cut_to(o,ch,Q); low_=cut_to(o,[low_],Q); up=cut_to(o,[up],Q)
    _,mp=o.fragment([(3,low_[0])],[(3,up[0]),(3,ch[0])]); o.synchronize(); vl,vu,vc=[m[0][1] for m in mp]; tidy(o)
    cs=sorted(set(sum([cur(s) for s in bnd(vc)],[]))); cs=[c for c in cs if bb(c,1)[4]>1e-5]
    mesh([(cs,.5)],h,.28,2.)
    X,vol,tri=data(); K=sum(assemble_vol(X,vol(v),11,3)[0] for v in (vl,vu,vc))
    r=np.sqrt((X[:,0]-.5)**2+X[:,1]**2+(X[:,2]-t)**2); fixed=np.where((X[:,2]>t-1e-6)&(abs(r-FAR)<1e-4))[0]
    sph=[s for s in bnd(vl) if max(map(abs,bb(s)))>FAR-2 and bb(s)[4]>FAR-2 and bb(s)[2]<-FAR+2]
    _,_,f=assemble_surf(X,tri(sph),9,3); S=f.sum(); n=len(X)
    p=static(K,f/S/2,fixed); gmsh.finalize()
    return n,(f@p)/S*W*l
if __name__=='__main__':
    out={}
    for name,mm in (('10 x 5 in 4',(10,5,4)),('10 x 5 in 2.5',(10,5,2.5)),('11 x 5 in 5',(11,5,5))):
        l=mm[1]; W,t=mm[0]/l,mm[2]/l; r=dict(width=W,wall=t)
        for kind,k in (('straight',{}),('ramp',{}),('printed',dict(low=.25/l,high=.75/l))):
            v=[model(W,t,'straight' if kind=='straight' else 'ramp',h,**k) for h in (.2,.11)]; c,f=v[0][1],v[1][1]
            r[kind]=round(float(f+(f-c)/((.2/.11)**1.17-1)),4)
        out[name]=r; print(name,r,flush=True)
    json.dump(out,open('vessel-labium.json','w'),indent=1)
