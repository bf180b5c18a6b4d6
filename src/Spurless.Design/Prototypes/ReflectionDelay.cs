namespace Spurless.Design.Prototypes;

/// <summary>
/// Group delay of the reflection in the middle of the band while resonators are tuned one after the other, the next one shorted (of tanks)
/// or opened (of
/// meshes): with <c>dw = 2 pi BW</c> and one resonator <c>4 g0 g1/dw</c>, two <c>4 g2/(g0 dw)</c>, three <c>4 g0 (g1 + g3)/dw</c> (J. B.
/// Ness, 'A unified
/// approach to the design, measurement, and tuning of coupled-resonator filters', IEEE Trans. MTT 46, 1998; from memory, derived below).
/// </summary>
public static class ReflectionDelay
{
    /// <summary>The delay in seconds of a lossless filter with the first resonators in, the next one detuned.</summary>
    /// <param name="prototype">The prototype.</param>
    /// <param name="widthHz">Bandwidth in hertz between its edges.</param>
    /// <param name="resonators">How many are in, 1 to n.</param>
    /// <remarks>
    /// At w = 0 the ladder of shunt and series elements g1..gm is a lossless one-port that is open (m odd) or shorted (m even) there; its
    /// slope
    /// <c>d(X or B)/dw</c> is the sum of the odd, or of the even, elements, so the delay is four times that sum over the band's width.
    /// </remarks>
    public static double Seconds(Prototype prototype, double widthHz, int resonators)
    {
        ArgumentNullException.ThrowIfNull(prototype);
        ArgumentOutOfRangeException.ThrowIfLessThan(resonators, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(resonators, prototype.Order);
        double sum = 0;
        for (int i = resonators; i >= 1; i -= 2)
        {
            sum += prototype.G(i);
        }

        return 4 * (resonators % 2 == 1 ? sum * prototype.G(0) : sum / prototype.G(0)) / (2 * Math.PI * widthHz);
    }
}
