using System.Runtime.CompilerServices;

namespace Spurless.Signals.Recognition.Packet;

/// <summary>
/// Recovers the symbol clock of a two-level signal from its crossings of the middle: each crossing pulls the clock a share of the way.
/// Holds clocks that are off by up to 1 %.
/// </summary>
internal struct BitClock(double bitsPerSample, double pull)
{
    private double _phase;
    private float _last;

    /// <summary>Takes a sample.</summary>
    /// <param name="v">The sample, its middle at 0.</param>
    /// <param name="decided">The signal in the middle of a symbol, where one ended its first half between the last sample and this.</param>
    /// <returns>Whether a symbol was decided.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public bool Push(float v, out float decided)
    {
        bool at = false;
        decided = 0;
        double before = _phase;
        _phase += bitsPerSample;
        if (_phase >= 0.5)
        {
            float u = (float)((0.5 - before) / bitsPerSample);
            decided = _last + (v - _last) * u;
            _phase -= 1;
            at = true;
        }

        if (_last > 0 != v > 0)
        {
            float share = v == _last ? 0 : v / (v - _last);
            double crossing = _phase - share * bitsPerSample;
            crossing -= Math.Round(crossing);
            _phase -= pull * crossing;
        }

        _last = v;
        return at;
    }
}
