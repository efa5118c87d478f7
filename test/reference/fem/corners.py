"""Corners: static finite elements of one feature alone, quarter models as in single.py; bore radius 1, P2 tetrahedra, two meshes extrapolated with h^1.17.
  pairs   two equal closed holes of radius b on one side, chimneys t (flat plugs), z apart along the bore; series length of each beside the other (z 8: alone)
  thin    an oval straight hole in a wall t, from the bore to the outside, flush; b: radius of the circle of its area, e: length along the bore over width:
          effective length on its area, driven from both ends of the bore alike (holds a quarter of the open series length times b^2), and series
          lengths, open to the air outside and closed flush
  wide    two equal open holes z apart, both driven alike from both ends of the bore: effective length of each, on its area (z 8: one alone)
Run in this folder, prepared as the README there says: python3 corners.py [pairs thin wide], writes corners.json; 20 minutes on an idle core."""
import sys; sys.path.insert(0,'.')
from single import *
def pair_series(b,t,z,h):
    """antisymmetric about x = 0, half way between the holes; twice the series length that both have together beyond the bore"""
    o=start(); Q=(0,0,-9,20,9,18); top=1+t; LBz=LB+z/2
    ch=cut_to(o,[o.addCylinder(z/2,0,.2,0,0,top-.2,b)],Q); tube=cut_to(o,[o.addCylinder(0,0,0,LBz,0,0,1)],Q)
    ch=[x for _,x in o.cut([(3,ch[0])],[(3,tube[0])],removeTool=False)[0]]
    _,mp=o.fragment([(3,tube[0])],[(3,ch[0])]); o.synchronize(); vb,vc=[m[0][1] for m in mp]; tidy(o)
    inter=[s for s in bnd(vc) if s in bnd(vb)]
    mesh([(off(sum([cur(s) for s in inter],[]),False),b)],h,.25,.3)
    X,vol,tri=data(); K=sum(assemble_vol(X,vol(v),11,3)[0] for v in (vb,vc)); n=len(X)
    endf=[s for s in bnd(vb) if bb(s)[0]>LBz-1e-4]; _,_,f=assemble_surf(X,tri(endf),9,3); S=f.sum(); p=static(K,f/S/2,np.where(X[:,0]<1e-7)[0]); gmsh.finalize()
    return n,2*(f@p)-LBz   # of one hole: flow 1 in the whole bore, area pi/2 here: (f@p)/S*pi = 2 f@p
def mesh_thin(curves,h,grad,t):
    """as `mesh`, and fine enough by a thin wall that its two sides do not meet"""
    f=gmsh.model.mesh.field; fl=[]
    for cs,hh in curves:
        d=f.add('Distance'); f.setNumbers(d,'EdgesList',cs); f.setNumber(d,'NNodesByEdge',140)
        m=f.add('MathEval'); f.setString(m,'F','%g+%g*F%d'%(hh*h,grad,d)); fl.append(m)
    r='(sqrt(y*y+z*z)-%g)'%(1+t); m=f.add('MathEval'); f.setString(m,'F','%g+.25*(abs(%s)+%s)+.25*(abs(abs(x)-6)+abs(x)-6)'%(min(.3,1.6*np.sqrt(t)),r,r)); fl.append(m)
    m=f.add('MathEval'); f.setString(m,'F','2+0*x'); fl.append(m)
    mn=f.add('Min'); f.setNumbers(mn,'FieldsList',fl); f.setAsBackgroundMesh(mn)
    for q in ('Mesh.CharacteristicLengthExtendFromBoundary','Mesh.CharacteristicLengthFromPoints','Mesh.CharacteristicLengthFromCurvature'): gmsh.option.setNumber(q,0)
    gmsh.option.setNumber('Mesh.Algorithm',6); gmsh.model.mesh.generate(3); gmsh.model.mesh.setOrder(2)
def oval_whole(along,across,t,h,rate=.25):
    o=start(); Q=(0,0,-20,40,20,40); R=1+t
    solid=[(3,o.addCylinder(-6,0,0,12,0,0,R))]
    ch=o.intersect([(3,ellipse_rod(o,along,across,.2,R+.5))],o.copy(solid))[0]; tube=cut_to(o,[o.addCylinder(0,0,0,LB,0,0,1)],Q)
    ext=cut_to(o,[o.cut([(3,o.addSphere(0,0,0,12))],solid)[0][0][1]],Q); ch=cut_to(o,[x for _,x in ch],Q)
    ch=[x for _,x in o.cut([(3,ch[0])],[(3,tube[0])],removeTool=False)[0]]
    _,mp=o.fragment([(3,tube[0])],[(3,ext[0]),(3,ch[0])]); o.synchronize(); vb,ve,vc=[m[0][1] for m in mp]; tidy(o)
    cs=[off(sum([cur(s) for s in bnd(vc) if s in bnd(v)],[])) for v in (vb,ve)]
    mesh_thin([(sorted(set(sum(cs,[]))),min(along,across))],h,rate,t)
    X,vol,tri=data(); Ks=[assemble_vol(X,vol(v),11,3)[0] for v in (vb,ve,vc)]; K=Ks[0]+Ks[1]+Ks[2]
    sph=[s for s in bnd(ve) if max(map(abs,bb(s)))>11 and bb(s)[4]-bb(s)[1]>1e-3 and bb(s)[3]-bb(s)[0]>1e-3]; Bm,_,_=assemble_surf(X,tri(sph),9,3)
    end=[s for s in bnd(vb) if bb(s)[0]>LB-1e-4]; _,_,f=assemble_surf(X,tri(end),9,3); S=f.sum(); n=len(X)
    F=lambda A,fx:static(A,f/S/4,fx)
    p=F(K+Bm/12.,np.array([],int)); area=np.pi*along*across
    mid=np.where(X[:,0]<1e-7)[0]
    # flow along the bore, the hole open: antisymmetric, free space beyond as of a dipole (2/R)
    q=static(K+2*Bm/12.,f/S/2,mid)
    closed=static(Ks[0]+Ks[2]+sp.diags(np.where(np.bincount(np.concatenate([vol(vb).ravel(),vol(vc).ravel()]),minlength=n)>0,0.,1.)),f/S/2,mid)
    gmsh.finalize()
    return n,np.array([((f@p)/S-LB/(2*np.pi))*area,4*(f@q)-2*LB,4*(f@closed)-2*LB])
def pair_whole(b,t,z,h):
    """two equal round holes z apart on one side, open, both fed alike from both ends of the bore: effective length of each, on its area, from the
    bore's flow at its own place on"""
    o=start(); Q=(0,0,-20,40,20,40); R=1+t; LBz=LB+z/2
    solid=[(3,o.addCylinder(-8,0,0,16,0,0,R))]
    ch=o.intersect([(3,o.addCylinder(z/2,0,.2,0,0,R+.3,b))],o.copy(solid))[0]; tube=cut_to(o,[o.addCylinder(0,0,0,LBz,0,0,1)],Q)
    ext=cut_to(o,[o.cut([(3,o.addSphere(0,0,0,12))],solid)[0][0][1]],Q); ch=cut_to(o,[x for _,x in ch],Q)
    ch=[x for _,x in o.cut([(3,ch[0])],[(3,tube[0])],removeTool=False)[0]]
    _,mp=o.fragment([(3,tube[0])],[(3,ext[0]),(3,ch[0])]); o.synchronize(); vb,ve,vc=[m[0][1] for m in mp]; tidy(o)
    cs=[off(sum([cur(s) for s in bnd(vc) if s in bnd(v)],[]),False) for v in (vb,ve)]
    mesh([(sorted(set(sum(cs,[]))),b)],h,.3,2.)
    X,vol,tri=data(); K=sum(assemble_vol(X,vol(v),11,3)[0] for v in (vb,ve,vc))
    sph=[s for s in bnd(ve) if max(map(abs,bb(s)))>11 and bb(s)[4]-bb(s)[1]>1e-3 and bb(s)[3]-bb(s)[0]>1e-3]; Bm,_,_=assemble_surf(X,tri(sph),9,3)
    end=[s for s in bnd(vb) if bb(s)[0]>LBz-1e-4]; _,_,f=assemble_surf(X,tri(end),9,3); S=f.sum(); n=len(X)
    p=static(K+Bm/12.,f/S/2,np.array([],int)); gmsh.finalize()   # each hole's whole flow 1: half of it here
    return n,((f@p)/S-LB/np.pi)*np.pi*b*b
def both(fun,*a,p=EDGE,hs=FINER,**k):
    c,f=[np.array(fun(*a,h=h,**k)[1]) for h in hs]; return f+(f-c)/((hs[0]/hs[1])**p-1)
if __name__=='__main__':
    out=json.load(open('corners.json')) if os.path.exists('corners.json') else {}
    which=sys.argv[1:] or ['pairs','thin','wide']
    def put(group,key,value): out.setdefault(group,{})[key]=value; print(group,key,value,flush=True); json.dump(out,open('corners.json','w'),indent=1)
    if 'pairs' in which:
        for b in (.75,.6):
            for z in (1.6,1.8,2.1,8): put('pairs','b%g t0.6 z%g'%(b,z),float(both(pair_series,b,.6,z,hs=(.12,.06))))
    if 'thin' in which:
        shapes=(1.,1.5,1/1.5,2.,.5)
        for b,t,es in ((.42,.05,shapes),(.42,.1,shapes),(.3,.036,shapes),(.42,.3,shapes[:3]),(.6,.072,shapes[:1]),(.6,.04,shapes[:1])):
            for e in es:
                x=both(oval_whole,b*e**.5,b*e**-.5,t,hs=(.16,.08) if b<.6 and t<.3 else (.12,.06)); put('thin','b%g t%g e%.3f'%(b,t,e),dict(length=float(x[0]),open=float(x[1]),closed=float(x[2])))
    if 'wide' in which:
        for b,t,zs in ((.75,.6,(1.8,2.2)),):
            put('wide','b%g t%g z8'%(b,t),float(both(whole_model,b,t,0,hs=(.1,.05))))
            for z in zs: put('wide','b%g t%g z%g'%(b,t,z),float(both(pair_whole,b,t,z,hs=(.1,.05))))
