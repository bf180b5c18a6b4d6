using Spurless.Circuits.Response;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Sites.Responses;

/// <summary>The two ranges of frequency in which a response is shown: all of it, and the neighbourhood of its pass-band.</summary>
/// <param name="WideFromHz">Lower end of the wide range in hertz.</param>
/// <param name="WideToHz">Upper end of the wide range in hertz.</param>
/// <param name="CloseFromHz">Lower end of the close range in hertz; the wide one's where there is no pass-band.</param>
/// <param name="CloseToHz">Upper end of the close range in hertz.</param>
public sealed record ResponseFrames(double WideFromHz, double WideToHz, double CloseFromHz, double CloseToHz)
{
    // So far beyond the outermost carrier, that its mark does not stand on the edge; and so many pass-bands beside the pass-band.
    private const double Margin = 1.08;
    private const double Beside = 0.9;

    /// <summary>Whether there is anything to draw in either.</summary>
    public bool HasPlots => CloseToHz > CloseFromHz && WideToHz > WideFromHz;

    /// <summary>The frames of a response.</summary>
    /// <param name="result">The response.</param>
    /// <param name="network">The network, for the range in which it is known.</param>
    /// <param name="carriersHz">Carriers that are to be seen, in hertz; may be empty.</param>
    public static ResponseFrames Of(ResponseResult result, ITwoPort network, IReadOnlyList<double> carriersHz)
    {
        ArgumentNullException.ThrowIfNull(result);
        ArgumentNullException.ThrowIfNull(network);
        ArgumentNullException.ThrowIfNull(carriersHz);
        double[] asked = [.. result.Points.Select(static p => p.FrequencyHz).Where(static f => f > 0), .. carriersHz];
        double from = asked.DefaultIfEmpty(1e6).Min(), to = asked.DefaultIfEmpty(1e9).Max();
        if (result.Passband?.CentreHz is { } centre)
        {
            (from, to) = (Math.Min(from, centre / 2), Math.Max(to, centre * 2));
        }

        double margin = carriersHz.Count > 0 ? Margin : 1;
        (from, to) = (Math.Max(from / margin, network.LowestHz), Math.Min(to * margin, network.HighestHz));
        if (result.Passband is not { Low3DbHz: { } low, High3DbHz: { } high })
        {
            return new ResponseFrames(from, to, from, to);
        }

        double width = high - low;
        return new ResponseFrames(
            from, to, Math.Max(Math.Max(from, low / 2), low - (Beside * width)), Math.Min(to, high + (Beside * width)));
    }
}
