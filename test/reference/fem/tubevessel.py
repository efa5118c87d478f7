"""Vessels whose hollow is a tube closed at both ends: mouth and holes in its side, axes in one plane (half model y >= 0). Lengths in mm from
the inner face of the end wall at the mouth; the end walls are as thick as the side, but before a window the body goes on for `front` as round a
block and windway. A window is a box from that end wall on.
Uses tube3d.py and femcore.py (P2 elements, second-order radiation condition, two meshes extrapolated).
The frequency is that where the reactance against a jet at the mouth vanishes, a unit step of pressure over the mouth's outer face.
Run in this folder: python3 tubevessel.py [names], writes tubevessel.json and ../fem-tube-vessels.json."""
import sys; sys.path.insert(0,'.')
from tube3d import *
MM=1e-3; RM=45.
MESH=[dict(h0=.09,hb=.3,grad=.28),dict(h0=.045,hb=.24,grad=.26)]
# Edges of holes in curved walls converge with about h^1.2 (whole single holes on three meshes: single.py)
POWER=1.2
def build(g,h0,hb,grad,hmax=20.):
    a,L,w=g['radius'],g['length'],g['wall']; w0=g.get('front',w); m_=g['mouth']; holes=g['holes']
    gmsh.initialize(); gmsh.option.setNumber('General.Terminal',0); gmsh.model.add('t'); o=gmsh.model.occ
    xc=(L+w-w0)/2; lh=(L+w+w0)/2; R=(np.hypot(lh,a+w)+RM); big=a+w+3
    half=lambda t:o.intersect([(3,t)],[(3,o.addBox(-1000,0,-1000,2000,1000,2000))])[0]
    cyl=lambda x0,x1,r:half(o.addCylinder(x0,0,0,x1-x0,0,0,r))
    cav=cyl(0,L,a); sol=cyl(-w0,L+w,a+w); ball=half(o.addSphere(xc,0,0,R)); ch=[]; size=[]
    def through(c):
        c=o.intersect(c,sol,removeObject=True,removeTool=False)[0]; c=o.cut(c,cav,removeObject=True,removeTool=False)[0]; assert len(c)==1,c; ch.append(c[0])
    if 'cutUp' in m_: through([(3,o.addBox(0,0,0,m_['cutUp'],m_['width']/2,big))]); size.append(min(m_['cutUp'],m_['width'])/2)
    else: through(half(o.addCylinder(m_['at'],0,0,0,0,big,m_['diameter']/2))); size.append(m_['diameter']/2)
    for h in holes: through(half(o.addCylinder(h['at'],0,0,0,0,h.get('side',1)*big,h['diameter']/2))); size.append(h['diameter']/2)
    ext=o.cut(ball,sol)[0]; out,mp=o.fragment([cav[0]],[ext[0]]+ch); o.synchronize()
    ids=[[t for d,t in m if d==3] for m in mp]; assert all(len(i)==1 for i in ids),ids
    vb,ve,vc=ids[0][0],ids[1][0],[i[0] for i in ids[2:]]
    bnd=lambda v:[abs(t) for _,t in gmsh.model.getBoundary([(3,v)],oriented=False)]
    cur=lambda s:[abs(t) for _,t in gmsh.model.getBoundary([(2,s)],oriented=False)]
    bb=lambda t,d=2:gmsh.model.getBoundingBox(d,t)
    sphere=[t for t in bnd(ve) if bb(t)[4]>R*.9 and bb(t)[4]-bb(t)[1]>1e-3]
    f=gmsh.model.mesh.field; fl=[]
    be,bi=set(bnd(ve)),set(bnd(vb))
    for v,b in zip(vc,size):
        cs=[c for t in bnd(v) if t in be or t in bi for c in cur(t) if bb(c,1)[4]>1e-2]
        d=f.add('Distance'); f.setNumbers(d,'EdgesList',sorted(set(cs))); f.setNumber(d,'NNodesByEdge',150)
        m=f.add('MathEval'); f.setString(m,'F','%g+%g*F%d'%(h0*b,grad,d)); fl.append(m)
    # the body's outer edges
    cs=[c for t in be if t not in sphere for c in cur(t) if bb(c,1)[4]>1e-2 and (abs(bb(c,1)[0]+w0)<1e-3 and abs(bb(c,1)[3]+w0)<1e-3 or abs(bb(c,1)[0]-L-w)<1e-3 and abs(bb(c,1)[3]-L-w)<1e-3)]
    d=f.add('Distance'); f.setNumbers(d,'EdgesList',sorted(set(cs))); f.setNumber(d,'NNodesByEdge',150)
    m=f.add('MathEval'); f.setString(m,'F','%g+%g*F%d'%(2*h0*a/2,grad,d)); fl.append(m)
    m=f.add('MathEval'); q='(abs(%s-%g)+%s-%g)/2'
    f.setString(m,'F','%g+0.35*(%s)+0.35*(%s)'%(hb*a,q%('sqrt(y*y+z*z)',a+w,'sqrt(y*y+z*z)',a+w),q%('abs(x-%g)'%xc,lh,'abs(x-%g)'%xc,lh))); fl.append(m)
    m=f.add('MathEval'); f.setString(m,'F','%g+0*x'%hmax); fl.append(m)
    mn=f.add('Min'); f.setNumbers(mn,'FieldsList',fl); f.setAsBackgroundMesh(mn)
    for q in ('Mesh.CharacteristicLengthExtendFromBoundary','Mesh.CharacteristicLengthFromPoints','Mesh.CharacteristicLengthFromCurvature'): gmsh.option.setNumber(q,0)
    gmsh.option.setNumber('Mesh.Algorithm',6); gmsh.model.mesh.generate(3); gmsh.model.mesh.setOrder(2)
    m=extract(vb,ve,vc,[],sphere,R*MM); m['X']=m['X']*MM
    return m
def against_jet(m,P,start,log=print):
    """wave number near `start` where the reactance of a step of pressure over the mouth's outer face vanishes"""
    Kc,Mc=m['mats'][2]; n=P.n; one=np.zeros(Kc.shape[0]); ext=np.zeros(len(one),bool); ext[m['Te']]=True
    s=np.unique(m['Tc'][0]); one[s[ext[s]]]=1.
    v=[np.zeros(n),np.zeros(n)]; v[0][:len(one)]=Kc@one; v[1][:len(one)]=Mc@one; c=[one@(Kc@one),one@(Mc@one)]
    P.add(P.F.solve(np.column_stack(v)))
    def flux(k,residual=False):
        f=v[0]-k*k*v[1]; g=P.V.T@f; y=np.linalg.solve(P.Ar(k),g.astype(complex))
        if residual: return P.resid(k,y,f)
        return c[0]-k*k*c[1]-g@y
    def zero():
        x=[start*.995,start*1.005]; r=lambda k:(1/flux(k)).real*k
        y=[r(q) for q in x]
        for _ in range(40):
            q=x[1]-y[1]*(x[1]-x[0])/(y[1]-y[0]); x=[x[1],q]; y=[y[1],r(q)]
            if abs(x[1]-x[0])<1e-10*q: break
        return x[1]
    last=None
    for _ in range(8):
        W=[]
        for k in (last or start)*np.array([.97,1.,1.03]): r=flux(k,True); W+=[r.real,r.imag]
        P.add(P.F.solve(np.column_stack(W))); k=zero()
        if last and abs(k/last-1)<1e-8: return k
        last=k
    log('   not converged',k); return k
def run(key,g,states):
    rows=[]; info=[]; q_={}
    for ms in MESH:
        t=time.time(); m=build(g,**ms); assemble(m); gmsh.finalize()
        fv=np.asarray(m['mats'][0][1].sum(axis=1)).ravel(); Vc=fv.sum(); m['f']=fv/Vc; m['S']=1.
        print(key,len(m['X']),'volume err',Vc/(.5*np.pi*g['radius']**2*g['length']*1e-9)-1,'sphere area err',m['Bm'].sum()/(2*np.pi*m['R']**2)-1,'%.0fs'%(time.time()-t),flush=True)
        info.append(dict(ms,nodes=len(m['X']))); row={}
        for s in states:
            closed=[i+1 for i,c in enumerate(s) if c=='X']
            K,M,Bm,Bs,f=system(m,closed); P=Problem(K,M,Bm,Bs,m['R'],f,1.,k0=4.,log=lambda *a:None)
            if not rows: p=P.enrich(24.,nmax=1,mode='poles',kmin=2.,log=lambda *a:None)[0]; q_[s]=p.real/2/abs(p.imag); start=p.real
            else: start=rows[0][s]
            k=against_jet(m,P,start); P.F.free(); row[s]=k
            print('  ',s,'hz %.4f Q %.2f'%(k*C0/2/np.pi,q_[s]),'%.0fs'%(time.time()-t),flush=True)
        rows.append(row)
    q=(MESH[0]['h0']/MESH[1]['h0'])**POWER-1; op=[]
    for s in states:
        kc,kf=rows[0][s],rows[1][s]; k=kf+(kf-kc)/q
        op.append(dict(holes=s,hz=round(k*C0/2/np.pi,4),q=round(q_[s],1),errorCents=round(.1+abs(float(cents(k,kf))),2)))
    save('tubevessel.json',key,dict(g,name=key,meshes=info,openings=op))
H=lambda at,d,side=1:dict(at=at,diameter=d,**({'side':side} if side!=1 else {}))
CASES={
 'T1 stout, window at the end':(dict(radius=22.,length=80.,wall=4.,front=25.,mouth=dict(width=10.,cutUp=5.),holes=[H(25.,6.),H(45.,7.),H(66.,8.)]),['XXX','OXX','XXO','OOO']),
 'T2 slim, window at the end':(dict(radius=12.,length=140.,wall=3.,front=25.,mouth=dict(width=8.,cutUp=4.),holes=[H(45.,5.),H(60.,4.5,-1),H(80.,5.5),H(115.,6.)]),['XXXX','XXXO','OXXX','XOXX','OOOO']),
 'T3 mouth hole in the middle':(dict(radius=16.,length=90.,wall=5.,mouth=dict(diameter=9.,at=45.),holes=[H(58.,5.),H(70.,6.),H(82.,7.)]),['XXX','XXO','OXX','OOO']),
 'T4 mouth hole at the end':(dict(radius=17.,length=70.,wall=2.5,mouth=dict(diameter=9.,at=4.5),holes=[H(22.,5.),H(38.,6.5),H(58.,6.)]),['XXX','XXO','OXX','OOO']),
}
ABOUT=("Vessels whose hollow is a tube closed at both ends by walls as thick as its side, mouth and holes in the side, by 3-D finite elements of the lossless "
 "Helmholtz equation (fem/tubevessel.py). Lengths in mm from the inner face of the end wall at the mouth, c = 343.37 m/s. X closed flush outside, O open; "
 "side -1: opposite the mouth. hz: no reactance against a step of pressure over the mouth's outer face; poleHz: real part of the complex eigenfrequency.")
def publish():
    json.dump(dict(about=ABOUT,speedOfSound=C0,density=RHO,vessels=list(json.load(open('tubevessel.json')).values())),open('../fem-tube-vessels.json','w'),indent=1)
if __name__=='__main__':
    for c in CASES:
        if len(sys.argv)==1 or any(c.startswith(a) for a in sys.argv[1:]): run(c,*CASES[c])
    publish()
