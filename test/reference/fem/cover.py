"""What a plate over part of one hole adds, on four meshes: ratios of successive changes near 2 show that its edge converges with h. Prints; cover.txt is the output."""
import sys; sys.path.insert(0,'.')
import single; from single import *
for b,t,c in ((3.5/8,3/8,.5),(.4,.35,.25),(.25,.35,.5)):
    r=[single.whole_model(b,t,0,h)[1] for h in (.1,.05,.025)]; r0=r[2]+(r[2]-r[1])/(2**1.17-1)
    L=[single.whole_covered(b,t,c,h)[1] for h in (.1,.05,.025,.0125)]
    print(b,t,c,'plain %.5f'%r0,'covered',np.round(L,5),'ratios',(L[1]-L[0])/(L[2]-L[1]),(L[2]-L[1])/(L[3]-L[2]),'x p=1 coarse %.5f fine %.5f'%(2*L[1]-L[0],2*L[3]-L[2]),'added/b %.4f'%((2*L[3]-L[2]-r0)/b),flush=True)
