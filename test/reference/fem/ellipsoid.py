"""Vessels with an ellipsoidal chamber: mouth at +z, holes normal to the wall in the xz-plane (half model y>=0). Outer wall: ellipsoid of half axes + wall.
Uses tube3d.py and femcore.py of the solver this project's tables were made with (P2 elements, second-order radiation condition, two meshes extrapolated)."""
import sys; sys.path.insert(0,'.')
from tube3d import *
Rm=.045
def wallpoint(ax,az,deg):
    t=np.radians(deg); d=1/np.hypot(np.cos(t)/az,np.sin(t)/ax); p=np.array([d*np.sin(t),0,d*np.cos(t)]); n=np.array([p[0]/ax**2,0,p[2]/az**2]); return p,n/np.linalg.norm(n)
def chimney(semi,w,deg):
    az,ax,ay=semi; p,n=wallpoint(ax,az,deg); A,B=ax+w,az+w
    qa=(n[0]/A)**2+(n[2]/B)**2; qb=2*(p[0]*n[0]/A**2+p[2]*n[2]/B**2); qc=(p[0]/A)**2+(p[2]/B)**2-1
    return (-qb+np.sqrt(qb*qb-4*qa*qc))/(2*qa)
def build(semi,w,holes,h0=.09,hb=.3,hmax=.02,grad=.28):
    az,ax,ay=semi   # along the mouth, in the plane of the holes, across it
    gmsh.initialize(); gmsh.option.setNumber('General.Terminal',0); gmsh.model.add('e'); o=gmsh.model.occ
    R=max(semi)+w+Rm
    def half(tag):
        bx=o.addBox(-1,0,-1,2,1,2); return o.intersect([(3,tag)],[(3,bx)])[0]
    def ell(x,y,z):
        t=o.addSphere(0,0,0,1); o.dilate([(3,t)],0,0,0,x,y,z); return half(t)
    cav=ell(ax,ay,az); sol=ell(ax+w,ay+w,az+w); ball=half(o.addSphere(0,0,0,R)); ch=[]
    for th,b in holes:
        p,n=wallpoint(ax,az,th); s=p-.008*n
        c=half(o.addCylinder(s[0],0,s[2],.03*n[0],0,.03*n[2],b))
        c=o.intersect(c,sol,removeObject=True,removeTool=False)[0]; c=o.cut(c,cav,removeObject=True,removeTool=False)[0]; assert len(c)==1; ch.append(c[0])
    ext=o.cut(ball,sol)[0]; out,mp=o.fragment([cav[0]],[ext[0]]+ch); o.synchronize()
    ids=[[t for d,t in m if d==3] for m in mp]; assert all(len(i)==1 for i in ids),ids
    vb,ve,vc=ids[0][0],ids[1][0],[i[0] for i in ids[2:]]
    bnd=lambda v:[abs(t) for _,t in gmsh.model.getBoundary([(3,v)],oriented=False)]
    cur=lambda s:[abs(t) for _,t in gmsh.model.getBoundary([(2,s)],oriented=False)]
    bb=lambda t:gmsh.model.getBoundingBox(2,t)
    sphere=[t for t in bnd(ve) if bb(t)[4]>R*.9 and max(map(abs,bb(t)))>R*.9 and bb(t)[4]-bb(t)[1]>1e-6]
    f=gmsh.model.mesh.field; fl=[]
    for i,v in enumerate(vc):
        cs=[]
        for t in bnd(v):
            if t in bnd(ve) or t in bnd(vb): cs+=[c for c in cur(t) if gmsh.model.getBoundingBox(1,c)[4]>1e-5]
        d=f.add('Distance'); f.setNumbers(d,'EdgesList',sorted(set(cs))); f.setNumber(d,'NNodesByEdge',150); b=holes[i][1]
        m=f.add('MathEval'); f.setString(m,'F','%g+%g*F%d'%(h0*b,grad,d)); fl.append(m)
    m=f.add('MathEval'); f.setString(m,'F','%g+0.35*(abs(sqrt(x*x+y*y+z*z)-%g)+sqrt(x*x+y*y+z*z)-%g)/2'%(hb*min(semi),max(semi)+w,max(semi)+w)); fl.append(m)
    m=f.add('MathEval'); f.setString(m,'F','%g+0*x'%hmax); fl.append(m)
    mn=f.add('Min'); f.setNumbers(mn,'FieldsList',fl); f.setAsBackgroundMesh(mn)
    for q in ('Mesh.CharacteristicLengthExtendFromBoundary','Mesh.CharacteristicLengthFromPoints','Mesh.CharacteristicLengthFromCurvature'): gmsh.option.setNumber(q,0)
    gmsh.option.setNumber('Mesh.Algorithm',6); gmsh.model.mesh.generate(3); gmsh.model.mesh.setOrder(2)
    return extract(vb,ve,vc,[],sphere,R)
MESH=[dict(h0=.09,hb=.3,hmax=.02,grad=.28),dict(h0=.05,hb=.22,hmax=.014,grad=.26)]
def run(key,semi,w,holes):
    ks=[]
    for ms in MESH:
        t=time.time(); m=build(semi,w,holes,**ms); assemble(m); gmsh.finalize()
        fv=np.asarray(m['mats'][0][1].sum(axis=1)).ravel(); Vc=fv.sum(); m['f']=fv/Vc; m['S']=1.
        print(key,len(m['X']),'volume err',Vc/(2/3*np.pi*np.prod(semi))-1,'sphere area err',m['Bm'].sum()/(2*np.pi*m['R']**2)-1,'%.0fs'%(time.time()-t),flush=True)
        row=[]
        for no in range(len(holes)):
            kk,P=solve(m,list(range(1+no,len(holes))),24.,1,mode='poles',kmin=2.,k0=3.); row.append(kk[0])
            print('  ',no,kk[0].real*C0/2/np.pi,kk[0].real/2/abs(kk[0].imag),'%.0fs'%(time.time()-t),flush=True)
        ks.append(row)
    q=(MESH[0]['h0']/MESH[1]['h0'])**(4/3)-1
    op=[]
    for no,(kc,kf) in enumerate(zip(*ks)):
        kx=kf.real+(kf.real-kc.real)/q
        op.append(dict(extraHolesOpen=no,hz=round(kx*C0/2/np.pi,4),q=round(kf.real/2/abs(kf.imag),1),errorCents=round(.1+abs(float(cents(kx,kf.real))),2)))
    mm=lambda x:round(x*1e3,4)
    save('vessels.json',key,dict(name=key,semiAxes=[mm(s) for s in semi],wall=mm(w),mouth=dict(diameter=mm(2*holes[0][1]),chimney=mm(chimney(semi,w,0))),
      holes=[dict(angleDegrees=a,diameter=mm(2*b),chimney=mm(chimney(semi,w,a))) for a,b in holes[1:]],openings=op))
CASES={'V1 side':((.022,.042,.022),4e-3,[(0,3.6e-3),(60,3e-3),(110,3.5e-3),(-75,4e-3),(-140,3.8e-3)]),
 'V2 end':((.042,.022,.022),4e-3,[(0,3.6e-3),(35,3e-3),(80,3.5e-3),(-60,4e-3),(-130,3.8e-3)]),
 'V4 blind':((.016,.034,.024),3.5e-3,[(0,3.2e-3),(50,3e-3),(130,2.6e-3),(-70,3.6e-3),(-105,3e-3)]),
 'V5 blind, end':((.036,.020,.027),3e-3,[(0,3.4e-3),(45,2.8e-3),(95,3.2e-3),(-55,3.4e-3),(-115,3e-3)]),
 'V3 triaxial':((.018,.040,.028),3e-3,[(0,3.8e-3),(55,2.5e-3),(80,3.4e-3),(-65,3.8e-3),(160,3.2e-3)])}
if __name__=='__main__':
    for key in sys.argv[1:] or CASES: run(key,*CASES[key])
