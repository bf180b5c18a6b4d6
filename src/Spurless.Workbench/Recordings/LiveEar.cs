using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Sites.Recordings;

namespace Spurless.Workbench.Recordings;

/// <summary>Listens to a sound while it comes in: keeps the last seconds in memory, and says what is on now.</summary>
public sealed class LiveEar
{
    private const double KeptS = 4;
    private const double NowS = 0.7;
    private byte[] _kept = [];
    private int _rate;

    /// <summary>Takes what came in since, and says what is on.</summary>
    /// <param name="octets">Samples of 16 bits, the lower octet first.</param>
    /// <param name="rateHz">Samples a second.</param>
    /// <returns>The kinds that are on at the end of what was heard; empty for noise and silence.</returns>
    public IReadOnlyList<Finding> Take(byte[] octets, int rateHz)
    {
        ArgumentNullException.ThrowIfNull(octets);
        if (rateHz is < 8_000 or > 192_000)
        {
            return [];
        }

        if (rateHz != _rate)
        {
            (_kept, _rate) = ([], rateHz);
        }

        int most = 2 * (int)(KeptS * rateHz);
        byte[] all = [.. _kept, .. octets.AsSpan(0, octets.Length / 2 * 2)];
        _kept = all.Length > most ? all[^most..] : all;
        Heard? heard = LiveService.Hear(_kept, rateHz);
        return heard is null ? []
            : [.. heard.Transmissions.SelectMany(static t => t.Kinds).Where(k => k.EndS > heard.DurationS - NowS)
                .OrderByDescending(static k => k.Confidence)];
    }
}
