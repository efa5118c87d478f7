"""A window in the wall of a tube whose plug stands a distance `stub` upstream of the window's upstream end: resonances by finite elements.
Half models (y >= 0). Uses tube3d.py (geometry, extraction, assembly, solution) and femcore.py. Run in this folder:
  python3 window-stub.py [names]     resonances, writes stub.json and, of all in it, ../fem-stub.json
Lengths here in mm, the solver's in m. The solid goes on upstream of the plug to one place, `SOLID` before the window, whatever the stub, as
the body of a two-chamber flute does; so the outside is the same in all cases of a tube and a difference between them is the stub's alone.
The drive is a weak uniform velocity of the plug's face; k is the real part of the complex eigenvalue, as for the windows of fem-open.json."""
import sys; sys.path.insert(0,'.')
from tube3d import *
MM=1e-3; SOLID=60.
MESH=[dict(h0=.09,hb=.5,hmax=.025,grad=.28),dict(h0=.045,hb=.42,hmax=.022,grad=.27)]
# name: bore radius, wall, window across and along, length from the window's upstream end to the foot; stubs
TUBES={'P':(8.,3.5,9.,5.,300.,(0.,2.,4.,6.,12.,15.,32.)),
       'Q':(6.,2.,6.,4.,240.,(0.,1.4,4.,11.,24.))}
def run(name,stub,path='./stub.json',kmax=36.,nm=3):
    a,wall,across,along,length,_=TUBES[name]; rows=[]; info=[]
    g=dict(r0=a*MM,r1=a*MM,L=(length+stub)*MM,wall=wall*MM,window=(across*MM,along*MM,stub*MM),plug=(SOLID-stub)*MM)
    for ms in MESH:
        t=time.time(); m=build(g,Rm=.08,**ms); assemble(m); gmsh.finalize()
        kk,_=solve(m,[],kmax*300/length,nm,mode='poles',kmin=4.); rows.append(kk)
        info.append(dict(ms,nodes=len(m['X'])))
        print(name,stub,'nodes',len(m['X']),np.round(kk.real*C0/2/np.pi,3),'Q',np.round(kk.real/2/abs(kk.imag)),'%.0fs'%(time.time()-t),flush=True)
    c,f=[r.real for r in rows]; x=f+(f-c)/((MESH[0]['h0']/MESH[1]['h0'])**(4/3)-1)
    save(path,'%s %g'%(name,stub),dict(tube=name,stub=stub,meshes=info,hz=list(x*C0/2/np.pi),extrapolationCents=list(cents(x,f)),errorCents=[float(.1+abs(e)) for e in cents(x,f)]))
ABOUT=("Resonances of tubes with a window whose plug stands `stopper` upstream of the window's upstream end, by 3-D finite elements of the lossless "
 "Helmholtz equation, P2 elements, second-order radiation condition on a sphere, two meshes extrapolated (fem/window-stub.py). Lengths in mm, positions "
 "from the window's upstream end, c = 343.37 m/s, as in fem-open.json; real parts of the complex eigenvalues. The outer cylinder goes on 60 mm upstream of "
 "the window in every case.")
def publish():
    done=json.load(open('./stub.json')); tubes=[]
    for name,(a,wall,across,along,length,stubs) in TUBES.items():
        plugs=[dict(stopper=s,hz=[round(h,4) for h in d['hz']],errorCents=[round(e,2) for e in d['errorCents']]) for s in stubs for d in [done.get('%s %g'%(name,s))] if d]
        tubes.append(dict(name=name,bore=[[0,2*a],[length,2*a]],wall=wall,window=dict(across=across,along=along),meshes=MESH,plugs=plugs))
    json.dump(dict(about=ABOUT,speedOfSound=C0,density=RHO,tubes=tubes),open('../fem-stub.json','w'),indent=1)
if __name__=='__main__':
    for name,t in TUBES.items():
        for s in t[-1]:
            k='%s %g'%(name,s)
            if len(sys.argv)==1 or k in sys.argv[1:]: run(name,s)
    publish()
