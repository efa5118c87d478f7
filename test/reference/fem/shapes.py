"""Tubes with holes that are not round and sharp-edged, or in a bore that steps, narrows and flares: resonances by finite elements.
Half models (y >= 0), all holes in the xz-plane, side +1 or -1 of it. Uses tube3d.py (extraction, assembly, solution) and femcore.py.
Run in this folder: python3 shapes.py [names], writes shapes.json. Units here: mm; the solver's: m.

hole: x, semi-axes along and across (`along`, `across`), and optionally
  `inner`    radius of a round hole on its axis at the bore's wall; the hole is a cone from there to `along` at the outer end
  `top`      distance of a raised chimney's flat outer end from the bore's axis, `rim` the thickness of its wall
  `fine`     times the size of the elements at its edges
  `cover`    the part of the opening with x > the hole's centre + b*cover_at can be covered by a thin rigid plate in the outer surface
"""
import sys; sys.path.insert(0,'.')
from tube3d import *
MM=1e-3; PLUG=5.
MESH=[dict(h0=.09,hb=.5,hmax=.025,grad=.28),dict(h0=.05,hb=.42,hmax=.022,grad=.27)]

def revolved(o,profile):
    """solid of revolution about x from (x,r) points in mm"""
    p=[(profile[0][0],0.)]+list(profile)+[(profile[-1][0],0.)]
    t=[o.addPoint(x*MM,0,r*MM) for x,r in p]
    l=[o.addLine(t[i],t[(i+1)%len(t)]) for i in range(len(t))]
    s=o.addPlaneSurface([o.addCurveLoop(l)])
    return [v for d,v in o.revolve([(2,s)],0,0,0,1,0,0,2*np.pi) if d==3][0]
def hole_solid(o,h,a,big):
    s=h.get('side',1); x=h['x']
    if 'inner' in h:   # cone through (a, inner) and (outer, along), on beyond both
        slope=(h['along']-h['inner'])/(h['outer']-a); r=lambda z:h['inner']+slope*(z-a)
        z0,z1=.3*a,h['outer']+.3
        return o.addCone(x*MM,0,s*z0*MM,0,0,s*(z1-z0)*MM,r(z0)*MM,r(z1)*MM)
    if abs(h['along']-h['across'])<1e-9: return o.addCylinder(x*MM,0,0,0,0,s*big*MM,h['along']*MM)
    big_,small=max(h['along'],h['across']),min(h['along'],h['across'])
    e=o.addEllipse(x*MM,0,0,big_*MM,small*MM)
    if h['across']>h['along']: o.rotate([(1,e)],x*MM,0,0,0,0,1,np.pi/2)
    f=o.addPlaneSurface([o.addCurveLoop([e])])
    return [v for d,v in o.extrude([(2,f)],0,0,s*big*MM) if d==3][0]
def radius_at(bore,x):
    r=bore[0][1]
    for (x0,r0),(x1,r1) in zip(bore,bore[1:]):
        if x1>x0 and x0<=x<=x1: r=r0+(r1-r0)*(x-x0)/(x1-x0)
    return r
def build_shape(g,h0,hb,hmax,grad,Rm=55.):
    bore=g['bore']; L=bore[-1][0]; Ro=g['outer']; holes=g['holes']; rmin=min(r for _,r in bore); rmax=max(r for _,r in bore)
    gmsh.initialize(); gmsh.option.setNumber('General.Terminal',0); gmsh.model.add('s'); o=gmsh.model.occ
    R=(L/2+Rm)*MM
    top=max([Ro]+[h.get('top',0) for h in holes]); big=top+3
    half=lambda tags:[t for t in o.intersect([(3,t) for t in tags],[(3,o.addBox(-1,0,-1,2,1,2))])[0]]
    tube=lambda:revolved(o,bore)
    def solid():
        s=[(3,revolved(o,[(-PLUG,Ro),(L,Ro)]))]
        towers=[(3,o.addCylinder(h['x']*MM,0,0,0,0,h.get('side',1)*h['top']*MM,(h['along']+h['rim'])*MM)) for h in holes if 'top' in h]
        return o.fuse(s,towers)[0] if towers else s
    chim=[]; pieces=[]
    for i,h in enumerate(holes):
        a=radius_at(bore,h['x']); h=dict(h,outer=h.get('top',Ro))
        c=o.intersect([(3,hole_solid(o,h,a,big))],solid())[0]
        c=o.cut(c,[(3,tube())])[0]; assert len(c)==1,c
        if 'cover_at' in h:
            xc=h['x']+h['cover_at']*h['along']
            box=lambda:[(3,o.addBox(xc*MM,-.1,-.1,.1,.2,.2))]
            for t in o.intersect(c,box(),removeObject=False)[0]+o.cut(c,box())[0]: chim+=half([t[1]]); pieces.append(i)
        else:
            chim+=half([t for _,t in c]); pieces.append(i)
    bv=half([tube()]); ball=o.addSphere(L/2*MM,0,0,R)
    ext=half([o.cut([(3,ball)],solid())[0][0][1]])
    out,mp=o.fragment(bv,ext+chim); o.synchronize()
    ids=[[t for d,t in m if d==3] for m in mp]; assert all(len(i)==1 for i in ids),ids
    vb,ve,vc=ids[0][0],ids[1][0],[i[0] for i in ids[2:]]
    kept={(3,t) for _,t in gmsh.model.getEntities(3)}
    for d in (3,2,1):
        for e in [e for e in kept if e[0]==d]: kept|={(k,abs(t)) for k,t in gmsh.model.getBoundary([e],oriented=False)}
    o.remove([e for d in (2,1,0) for e in gmsh.model.getEntities(d) if e not in kept]); o.synchronize()   # drawing aids
    stray=[t for d,t in gmsh.model.getEntities(3) if t not in [vb,ve]+vc]; assert not stray,stray
    bnd=lambda v:[abs(t) for _,t in gmsh.model.getBoundary([(3,v)],oriented=False)]
    cur=lambda s:[abs(t) for _,t in gmsh.model.getBoundary([(2,s)],oriented=False)]
    bb=lambda t,d=2:gmsh.model.getBoundingBox(d,t)
    off=lambda cs:[c for c in cs if bb(c,1)[4]>1e-5]
    piston=[t for t in bnd(vb) if bb(t)[3]<1e-6]
    sphere=[t for t in bnd(ve) if bb(t)[4]>R*.9 and max(map(abs,bb(t)))>R*.9 and bb(t)[4]-bb(t)[1]>1e-6]
    assert len(piston)==1 and sphere,(piston,sphere)
    f=gmsh.model.mesh.field; fl=[]
    def near(curves,h):
        d=f.add('Distance'); f.setNumbers(d,'EdgesList',sorted(set(curves))); f.setNumber(d,'NNodesByEdge',140)
        m=f.add('MathEval'); f.setString(m,'F','%g+%g*F%d'%(h,grad,d)); fl.append(m)
    be,bbv=set(bnd(ve)),set(bnd(vb))
    for v,i in zip(vc,pieces):
        b=min(holes[i]['along'],holes[i]['across'])*MM; sv=bnd(v); cs=[]
        for t in sv:
            if t in be or t in bbv: cs+=off(cur(t))
        near(cs,h0*b*holes[i].get('fine',1))
        if 'top' in holes[i]:  # outer edge of the rim
            tz=holes[i]['top']*MM
            rim=[c for t in be for c in off(cur(t)) if abs(abs(bb(c,1)[2])-tz)<1e-6 and abs(abs(bb(c,1)[5])-tz)<1e-6]
            near(rim,1.6*h0*b)
    cs=[]
    for t in be:
        q=bb(t)
        if q[0]>L*MM-1e-6 and q[3]<L*MM+1e-6: cs+=off(cur(t))
    near(cs,1.6*h0*bore[-1][1]*MM)
    steps=[x for (x,_),(y,_) in zip(bore,bore[1:]) if abs(x-y)<1e-9]
    for x in steps:
        near([c for t in bbv for c in off(cur(t)) if abs(bb(c,1)[0]-x*MM)<1e-6 and abs(bb(c,1)[3]-x*MM)<1e-6],2*h0*rmin*MM)
    m=f.add('MathEval'); f.setString(m,'F','%g+0.3*(abs(sqrt(y*y+z*z)-%g)+sqrt(y*y+z*z)-%g)/2+0.3*(abs(x-%g)+x-%g)/2+.3*(abs(-x)-x)/2'%(hb*.5*(rmin+rmax)*MM,1.05*rmax*MM,1.05*rmax*MM,L*MM,L*MM)); fl.append(m)
    m=f.add('MathEval'); f.setString(m,'F','%g+0*x'%hmax); fl.append(m)
    mn=f.add('Min'); f.setNumbers(mn,'FieldsList',fl); f.setAsBackgroundMesh(mn)
    for q in ('Mesh.CharacteristicLengthExtendFromBoundary','Mesh.CharacteristicLengthFromPoints','Mesh.CharacteristicLengthFromCurvature'): gmsh.option.setNumber(q,0)
    gmsh.option.setNumber('Mesh.Algorithm',6); gmsh.option.setNumber('Mesh.Algorithm3D',1)
    gmsh.model.mesh.generate(3); gmsh.model.mesh.setOrder(2)
    m=extract(vb,ve,vc,piston,sphere,R); m['pieces']=pieces
    return m
def shape_system(m,state):
    """state: one letter a hole, O open, X closed by a flush plug, H covered on the side of larger x, h on the other."""
    n=len(m['X']); (Kb,Mb),(Ke,Me)=m['mats'][:2]; nn=n; ext=np.zeros(n,bool); ext[m['Te']]=True
    up=lambda A,s:(lambda B:sp.coo_matrix((B.data,(B.row,B.col)),shape=(s,s)).tocsr())(A.tocoo())
    parts=[]; maps=[]
    for i,c in enumerate(state):
        ps=[p for p,q in enumerate(m['pieces']) if q==i]; idx=np.arange(n)
        if c!='O':
            sh=np.unique(np.concatenate([m['Tc'][p].ravel() for p in ps])); 
            if c in 'Hh':
                far=(max if c=='H' else min)(ps,key=lambda p:m['X'][m['Tc'][p]][:,:,0].mean()); rest=[p for p in ps if p!=far]
                sh=np.setdiff1d(np.unique(m['Tc'][far]),np.unique(np.concatenate([m['Tc'][p].ravel() for p in rest])))
            sh=sh[ext[sh]]; idx[sh]=nn+np.arange(len(sh)); nn+=len(sh)
        for p in ps: parts.append((m['mats'][2+p],idx))
    K=up(Kb+Ke,nn); M=up(Mb+Me,nn)
    for (Kc,Mc),idx in parts:
        for A,target in ((Kc.tocoo(),'K'),(Mc.tocoo(),'M')):
            B=sp.coo_matrix((A.data,(idx[A.row],idx[A.col])),shape=(nn,nn)).tocsr()
            if target=='K': K=K+B
            else: M=M+B
    f=np.zeros(nn); f[:n]=m['f']
    return K,M,up(m['Bm'],nn),up(m['Bs'],nn),f
def run(name,g,states,kmax=42.,nm=3,meshes=MESH,path='./shapes.json'):
    rows=[]; info=[]
    for ms in meshes:
        t=time.time(); m=build_shape(g,**ms); assemble(m); gmsh.finalize()
        V=[float(x[1].sum()) for x in m['mats']]
        print(name,ms,'nodes',len(m['X']),'half volumes mm3',V[0]*1e9,[v*1e9 for v in V[2:]],'%.0fs'%(time.time()-t),flush=True)
        info.append(dict(ms,nodes=len(m['X']))); r={}
        for s in states:
            t=time.time(); K,M,Bm,Bs,f=shape_system(m,s); P=Problem(K,M,Bm,Bs,m['R'],f,m['S'],k0=.45*kmax,log=lambda *a:None); kk=P.enrich(kmax,nmax=nm,log=lambda *a:None); P.F.free()
            r[s]=(kk,P.zin(kk)); print('  ',s,np.round(kk*C0/2/np.pi,3),'ReZ',np.round(r[s][1].real,4),'%.0fs'%(time.time()-t),flush=True)
        rows.append(r)
        fings=[]
        for s in states:
            # a wedge's edge converges with h^(4/3), the sharp edge of a plate with h
            q=(meshes[0]['h0']/meshes[len(rows)-1]['h0'])**(1 if set(s)&set('Hh') else 4/3)-1
            kf,Z=r[s]; kc=rows[0][s][0]; ok=len(rows)>1 and len(kf)==len(kc); kx=kf+(kf-kc)/q if ok else kf; d=cents(kx,kf)
            fings.append(dict(holes=s,hz=[round(float(v),4) for v in kx*C0/2/np.pi],errorCents=[round(float(abs(v))+.1,3) for v in d],weak=[bool(z.real>.05) for z in Z],extrapolationCents=[round(float(v),3) for v in d]))
        save(path,name,dict(g,meshes=info,fingerings=fings))
def oval(x,along,across,**k): return dict(x=x,along=along,across=across,**k)
def rnd(x,b,**k): return oval(x,b,b,**k)
CYL=lambda a,L:[(0,a),(L,a)]
CASES={
 'S1 oval':(dict(bore=CYL(8.,280.),outer=11.,holes=[oval(150.,4.2,2.8),oval(185.,2.8,4.2),oval(222.,4.5,3.2)]),['XXX','XXO','XOO','OOO','OXX']),
 'S2 undercut':(dict(bore=CYL(7.5,280.),outer=11.5,holes=[rnd(150.,2.8,inner=3.8),rnd(182.,3.2,inner=4.4),rnd(222.,3.,inner=3.6)]),['XXX','XXO','XOO','OOO','OXX']),
 'S3 raised':(dict(bore=CYL(7.,280.),outer=8.5,holes=[rnd(150.,3.,top=11.5,rim=1.5),rnd(185.,3.5,top=12.5,rim=1.5),rnd(220.,2.8,top=10.5,rim=1.5)]),['XXX','XXO','XOO','OOO','OXX']),
 'S4 stepped':(dict(bore=[(0,8.),(120.,8.),(120.,7.2),(230.,6.2),(280.,8.5)],outer=11.,holes=[rnd(150.,3.),rnd(190.,3.2),rnd(215.,2.8)]),['XXX','XXO','XOO','OOO','OXX']),
 'S5 half-covered':(dict(bore=CYL(8.,280.),outer=11.,holes=[rnd(150.,3.5,cover_at=0.),rnd(190.,3.2,cover_at=0.),rnd(226.,3.4)]),['XXX','XOO','HOO','HXX','XHO','XHX','hOO','hXX','XhO','XhX']),
 # computed when the model and its constants stood
 'S7 raised and undercut':(dict(bore=CYL(7.5,280.),outer=9.5,holes=[rnd(150.,2.8,inner=3.6,top=12.5,rim=2.),rnd(190.,3.2,inner=4.,top=11.5,rim=2.),rnd(225.,3.)]),['XXX','XXO','XOO','OXX','OOO']),
 'S6 mixed':(dict(bore=[(0,8.5),(290.,6.8)],outer=9.5,holes=[rnd(140.,2.6,inner=3.2,side=-1),oval(165.,3.4,2.6),rnd(196.,3.,top=12.,rim=2.7),rnd(232.,3.)]),['XXXX','XXXO','XXOO','XOOO','OOOO','OXXX']),
}
ABOUT=("Resonances of tubes whose holes are oval, undercut, raised or half covered, or whose bore steps, narrows and flares, by 3-D finite elements of the "
 "lossless Helmholtz equation, P2 elements, second-order radiation condition on a sphere, two meshes extrapolated (fem/shapes.py). Lengths in mm, "
 "positions from the input plane, c = 343.37 m/s, as in fem-open.json. diameter: width across, outside; length: along the bore; undercut: how much wider at "
 "the bore, on the diameter; raised: height above the body's outer surface, rim as thick as the wall. X closed, O open, H half covered by a thin plate in "
 "the outer surface, the side toward the foot, h the side toward the input.")
def publish():
    tubes=[]
    for name,g in json.load(open('shapes.json')).items():
        holes=[]
        for h in g['holes']:
            d=dict(at=h['x'],diameter=2*h['across'],chimney=round(h.get('top',g['outer'])-radius_at(g['bore'],h['x']),6))
            if h['along']!=h['across']: d['length']=2*h['along']
            if 'inner' in h: d['undercut']=round(2*(h['inner']-h['along']),6)
            if h.get('side')==-1: d['side']='back'
            if 'top' in h: d['raised']=h['top']-g['outer']
            holes.append(d)
        bore=[[x,2*r] for x,r in g['bore']]
        tubes.append(dict(name=name,bore=bore,wall=g['outer']-g['bore'][-1][1],holes=holes,meshes=g['meshes'],fingerings=g['fingerings']))
    json.dump(dict(about=ABOUT,speedOfSound=C0,density=RHO,tubes=tubes),open('../fem-shapes.json','w'),indent=1)
if __name__=='__main__':
    for c in CASES:
        if len(sys.argv)==1 or any(c.startswith(a) for a in sys.argv[1:]):
            t=time.time(); run(c,*CASES[c]); print('CASE',c,'%.0fs'%(time.time()-t),flush=True)
    publish()
