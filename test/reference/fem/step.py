"""Inertance of a sudden step between two round ducts, static mode matching: added length on the narrow duct over its radius, by the ratio of the radii."""
import numpy as np
from scipy.special import jn_zeros,j0,j1
def step(ratio,n=240):
    # narrow radius r, wide radius 1; axisymmetric modes J0(z x/radius), z zeros of J1
    r=ratio; N=n; M=int(n/ratio)+1; zn=jn_zeros(1,N); zm=jn_zeros(1,M)
    # velocity at the step in the narrow duct: 1 + sum v_n J0(zn x/r)/J0(zn); pressure of mode n: -l v with admittance z/r each side
    # projection of narrow mode n on wide mode m: C[m,n] = 2/(r^2) int_0^r J0n J0m x dx (both normalised to mean square 1 on their own duct)
    k=zm; C0=2*j1(k*r)/(k*r)/np.abs(j0(k))
    C=np.empty((M,N))
    for i,z in enumerate(zn): C[:,i]=2*(k*r)*j1(k*r)*1/((k*r)**2-z*z)*np.sign(j0(z))/np.abs(j0(k))
    bad=np.abs((k*r)[:,None]-zn[None,:])<1e-9; C[bad]=1.
    # wide amplitudes: w_m = r^2 (C0 + C v); pressure on the opening from wide modes: w_m / zm ; from narrow modes: -v_n r/ zn
    W=np.diag(1/zm)*1.
    A=np.diag(r/zn)+r*r*C.T@(C/zm[:,None]); b=-r*r*C.T@(C0/zm); v=np.linalg.solve(A,b)
    return (r*r*(C0@((C0+C@v)/zm)))/r
if __name__=='__main__':
    for q in (.3,.4,.5,.6,.7,.75,.8,.85,.9,.95,.98):
        a,b=step(q,150),step(q,300); x=b+(b-a)/(2**(4/3)-1); print(q,round(a,5),round(b,5),round(x,5),'over (1-q)^2: %.4f'%(x/(1-q)**2))
