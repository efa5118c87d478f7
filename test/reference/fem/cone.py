"""Inertance of a short cone between two round ducts beyond what plane waves make of it, static axisymmetric finite elements (P2 triangles graded to both
edges): added length on the narrow duct over its radius. `ratio` narrow over wide radius, `run` the cone's length over the difference of the radii; 0 is a step.
Run in this folder, prepared as the README there says: python3 cone.py, writes cone.json, a minute."""
import sys; sys.path.insert(0,'.')
from femcore import *
import gmsh, json
from scipy.sparse.linalg import spsolve
def excess(ratio,run,h):
    a=ratio; d=run*(1-a); L1,L2=3*a,3.
    gmsh.initialize(); gmsh.option.setNumber('General.Terminal',0); gmsh.model.add('c'); o=gmsh.model.geo
    P=[(-L1,0),(-L1,a),(0,a),(d,1),(d+L2,1),(d+L2,0)]
    t=[o.addPoint(x,y,0,.12*(a if i<3 else 1)) for i,(x,y) in enumerate(P)]
    l=[o.addLine(t[i],t[(i+1)%6]) for i in range(6)]; s=o.addPlaneSurface([o.addCurveLoop(l)]); o.synchronize()
    f=gmsh.model.mesh.field; D=f.add('Distance'); f.setNumbers(D,'PointsList',[t[2],t[3]]); m=f.add('MathEval'); f.setString(m,'F','%g+.2*F%d'%(h*1e-3,D))
    c=f.add('MathEval'); f.setString(c,'F','%g+0*x'%(.1)); mn=f.add('Min'); f.setNumbers(mn,'FieldsList',[m,c]); f.setAsBackgroundMesh(mn)
    for q in ('Mesh.MeshSizeExtendFromBoundary','Mesh.MeshSizeFromPoints'): gmsh.option.setNumber(q,0)
    gmsh.model.mesh.generate(2); gmsh.model.mesh.setOrder(2)
    tags,X,_=gmsh.model.mesh.getNodes(); X=np.array(X).reshape(-1,3); mp=np.zeros(int(max(tags))+1,int); mp[tags]=np.arange(len(tags))
    T=mp[np.array(gmsh.model.mesh.getElements(2,s)[2][0]).reshape(-1,6)]; K,_,_=assemble_vol(X,T,9,2,rw=True)
    E=mp[np.array(gmsh.model.mesh.getElements(1,l[0])[2][0]).reshape(-1,3)]
    # flow 1 in at the narrow end, even over its area: load of a P2 line in r, 3-point Gauss
    F=np.zeros(len(X)); g=np.sqrt(.6)
    for e in E:
        r0,r1=X[e[0],1],X[e[1],1]
        for z,w in ((-g,5/9),(0,8/9),(g,5/9)):
            N=np.array([z*(z-1)/2,z*(z+1)/2,1-z*z]); r=r0+(r1-r0)*(1+z)/2; F[e]+=w*N*2*np.pi*r*abs(r1-r0)/2
    S=F.sum(); ends=np.where(X[:,0]>d+L2-1e-9)[0]; free=np.setdiff1d(np.arange(len(X)),ends)
    p=np.zeros(len(X)); p[free]=spsolve(K[free][:,free].tocsc(),(F/S)[free]); gmsh.finalize()
    total=(F@p)/S; return (total-L1/(np.pi*a*a)-d/(np.pi*a)-L2/np.pi)*np.pi*a,len(X)
if __name__=='__main__':
    out={}
    for ratio in (.3,.5,.7,.85):
        for run in (0,.05,.15,.35,.7,1,1.5,2.5,4,8):   # a mesh three times coarser lies within 0.0002
            out['ratio %g run %g'%(ratio,run)]=round(float(excess(ratio,max(run,1e-4),2)[0]),6)
    json.dump(out,open('cone.json','w'),indent=1)
