"""Whole tubes, straight or tapered, with holes at any angle, one of a pair open: no symmetry is left, so the whole body is meshed. P2 of ../fem-corners.json.
hole: (x, radius, degrees around the axis). Uses tube3d.py (extraction, assembly, solution); units m.
Run in this folder: python3 pairtaper.py, prints frequencies and resistances of both meshes, to be extrapolated with h^(4/3); an hour on an idle core."""
import sys; sys.path.insert(0,'.')
from tube3d import *
def build(geo,h0=.1,hb=.5,hmax=.025,grad=.28,Rm=.055):
    r0,r1,L,w=geo['r0'],geo['r1'],geo['L'],geo['wall']; holes=geo['holes']; sl=(r1-r0)/L
    gmsh.initialize(); gmsh.option.setNumber('General.Terminal',VERB); gmsh.model.add('t'); o=gmsh.model.occ
    R=L/2+Rm; big=r0+w+.01
    def tube(x0,x1,ra,rb): return o.addCylinder(x0,0,0,x1-x0,0,0,ra) if abs(ra-rb)<1e-12 else o.addCone(x0,0,0,x1-x0,0,0,ra,rb)
    body=lambda: tube(-XP,L,r0+w-sl*XP,r1+w)
    bore=tube(0,L,r0,r1); chim=[]
    for x,b,deg in holes:
        a=np.radians(deg); c=o.addCylinder(x,0,0,0,big*np.sin(a),big*np.cos(a),b)
        c=o.intersect([(3,c)],[(3,body())])[0]; c=o.cut(c,[(3,tube(0,L,r0,r1))])[0]; assert len(c)==1,c; chim.append(c[0])
    ext=o.cut([(3,o.addSphere(L/2,0,0,R))],[(3,body())])[0]; assert len(ext)==1
    out,mp=o.fragment([(3,bore)],[ext[0]]+chim); o.synchronize()
    ids=[[t for d,t in m if d==3] for m in mp]; assert all(len(i)==1 for i in ids),ids
    vb,ve,vc=ids[0][0],ids[1][0],[i[0] for i in ids[2:]]
    bnd=lambda v:[abs(t) for _,t in gmsh.model.getBoundary([(3,v)],oriented=False)]
    bb=lambda t,d=2:gmsh.model.getBoundingBox(d,t)
    cur=lambda s:[abs(t) for _,t in gmsh.model.getBoundary([(2,s)],oriented=False)]
    piston=[t for t in bnd(vb) if bb(t)[3]<1e-6]; sphere=[t for t in bnd(ve) if max(map(abs,bb(t)))>R*.9 and bb(t)[4]>R*.9]
    assert len(piston)==1 and len(sphere)>=1,(piston,sphere)
    f=gmsh.model.mesh.field; fl=[]
    def near(cs,h,n):
        d=f.add('Distance'); f.setNumbers(d,'EdgesList',sorted(set(cs))); f.setNumber(d,'NNodesByEdge',n)
        m=f.add('MathEval'); f.setString(m,'F','%g+%g*F%d'%(h,grad,d)); fl.append(m)
    for v,(x,b,_) in zip(vc,holes): near(sum([cur(t) for t in bnd(v) if t in bnd(ve) or t in bnd(vb)],[]),h0*b,160)
    near(sum([cur(t) for t in bnd(ve) if bb(t)[0]>L-1e-6 and bb(t)[3]<L+1e-6],[]),1.6*h0*r1,200)
    rm=(r0+r1)/2; m=f.add('MathEval'); f.setString(m,'F','%g+0.3*(abs(sqrt(y*y+z*z)-%g)+(sqrt(y*y+z*z)-%g))/2+0.3*(abs(x-%g)+(x-%g))/2+.3*(abs(-x)-x)/2'%(hb*rm,1.05*rm,1.05*rm,L,L)); fl.append(m)
    m=f.add('MathEval'); f.setString(m,'F','%g+0*x'%hmax); fl.append(m)
    mn=f.add('Min'); f.setNumbers(mn,'FieldsList',fl); f.setAsBackgroundMesh(mn)
    for q in ('Mesh.CharacteristicLengthExtendFromBoundary','Mesh.CharacteristicLengthFromPoints','Mesh.CharacteristicLengthFromCurvature'): gmsh.option.setNumber(q,0)
    gmsh.option.setNumber('Mesh.Algorithm',6); gmsh.option.setNumber('Mesh.Algorithm3D',1); gmsh.option.setNumber('Mesh.Optimize',1)
    gmsh.model.mesh.generate(3); gmsh.model.mesh.setOrder(2)
    return extract(vb,ve,vc,piston,sphere,R)
if __name__=='__main__':
    g=dict(r0=8e-3,r1=5.6e-3,L=.26,wall=3.5e-3,holes=[(.150,3e-3,0.),(.184,2.7e-3,0.),(.218,2.5e-3,25.2),(.218,2e-3,-25.2)])
    for mesh in (dict(h0=.16,hb=.5,hmax=.025,grad=.32),dict(h0=.09,hb=.45,hmax=.022,grad=.3)):
        m=assemble(build(g,**mesh)); gmsh.finalize(); print(mesh,len(m['X']),flush=True)
        for name in ('XXXO','XXOO','XOXO','XXOX','XXXX','XOXX','OOOO'):
            k,P=solve(m,[i for i,c in enumerate(name) if c=='X'],45.,3); print(name,np.round(k*C0/2/np.pi,3),np.round(P.zin(k).real,5),flush=True)
