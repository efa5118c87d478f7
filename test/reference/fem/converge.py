"""How far the meshes of shapes.py have converged: one hole's edges at .1, .05, .025 (.0125) of its radius, the other holes' at .1, and one mesh finer
everywhere. Run in this folder: python3 converge.py S2|S5|S6, writes conv.json (first two registers, Hz): convergence.json is its copy."""
import sys; sys.path.insert(0,'.')
from shapes import *
import copy
A=dict(h0=.05,hb=.42,hmax=.022,grad=.27)
FINER=dict(h0=.05,hb=.3,hmax=.018,grad=.18)
def go(case,states,sets):
    for name,fine,ms in sets:
        g=copy.deepcopy(CASES[case][0])
        for h,f in zip(g['holes'],fine): h['fine']=f
        m=build_shape(g,**ms); assemble(m); gmsh.finalize()
        for s in states:
            K,M,Bm,Bs,f=shape_system(m,s); P=Problem(K,M,Bm,Bs,m['R'],f,m['S'],k0=.45*42,log=lambda *a:None); kk=P.enrich(24.,nmax=2,log=lambda *a:None); P.F.free()
            hz=kk*C0/2/np.pi; print(case,name,s,'nodes',len(m['X']),np.round(hz,4),flush=True); save('conv.json','%s %s %s'%(case,name,s),[float(v) for v in hz])
if 'S2' in sys.argv[1:]:
    go('S2 undercut',['OXX'],[('.1',(2,2,2),A),('.05',(1,2,2),A),('.025',(.5,2,2),A),('.05 grad .18 hb .3',(1,2,2),FINER)])
if 'S6' in sys.argv[1:]:
    go('S6 mixed',['OXXX'],[('.1',(2,2,2,2),A),('.05',(1,2,2,2),A),('.025',(.5,2,2,2),A),('.05 grad .18 hb .3',(1,2,2,2),FINER)])
if 'S5' in sys.argv[1:]:
    go('S5 half-covered',['HXX','hXX'],[('1: .1',(2,2,2),A),('1: .05',(1,2,2),A),('1: .025',(.5,2,2),A),('1: .0125',(.25,2,2),A)])
    go('S5 half-covered',['XHX','XhX'],[('2: .1',(2,2,2),A),('2: .05',(2,1,2),A),('2: .025',(2,.5,2),A)])
