using Spurless.Signals.Dsp;

namespace Spurless.Signals.Listening;

/// <summary>
/// Takes channels of any centre and width out of a band: a filter bank by transforms (one forward transform of a block of the band, for
/// each channel an inverse transform of its part of the bins). Blocks overlap by half, of each the middle half is used, which is exact for
/// filters whose response is shorter than half a block; the raised-cosine edges here are.
/// </summary>
internal sealed class Channeliser
{
    private const double BlockS = 1.0 / 70;

    private readonly FastTransform _forward;
    private readonly float[] _re;
    private readonly float[] _im;
    private readonly float[] _block;
    private int _have;

    /// <summary>Prepares for a rate.</summary>
    public Channeliser(double rateHz)
    {
        RateHz = rateHz;
        int size = 256;
        while (size < 1 << 17 && size / rateHz < BlockS)
        {
            size *= 2;
        }

        Size = size;
        _forward = new FastTransform(size);
        _re = new float[size];
        _im = new float[size];
        _block = new float[2 * size];

        // The first block's first half lies before the recording.
        _have = size / 4;
    }

    /// <summary>Samples a second.</summary>
    public double RateHz { get; }

    /// <summary>Samples of a block.</summary>
    public int Size { get; }

    /// <summary>Sample of the recording in the middle of which the next output begins.</summary>
    public long Position { get; private set; }

    /// <summary>Samples to read for the next block.</summary>
    public int Wanted => Size - _have;

    /// <summary>Where to read them: pairs.</summary>
    public Span<float> Space => _block.AsSpan(2 * _have);

    /// <summary>Transforms a block; what was not read counts as 0.</summary>
    /// <param name="got">Samples read into <see cref="Space"/>.</param>
    public void Transform(int got)
    {
        _block.AsSpan(2 * (_have + got)).Clear();
        Pairs.Split(_block, _re, _im);
        _forward.Forward(_re, _im);
    }

    /// <summary>Goes on by half a block.</summary>
    public void Advance()
    {
        _block.AsSpan(Size, Size).CopyTo(_block);
        _have = Size / 2;
        Position += Size / 2;
    }

    /// <summary>Goes on by half a block that nothing wants, without transforming it.</summary>
    public void Pass(int got)
    {
        _block.AsSpan(2 * (_have + got)).Clear();
        Advance();
    }

    /// <summary>One channel of the band.</summary>
    public sealed class Channel
    {
        private readonly Channeliser _owner;
        private readonly FastTransform _inverse;
        private readonly float[] _re;
        private readonly float[] _im;
        private readonly float[] _gain;
        private readonly int _first;
        private readonly double _residualHz;
        private long _count;

        /// <summary>Prepares a channel.</summary>
        /// <param name="owner">The band.</param>
        /// <param name="centreHz">Its centre, from the band's.</param>
        /// <param name="halfHz">Half of its pass band.</param>
        /// <param name="edgeHz">Width of each edge.</param>
        public Channel(Channeliser owner, double centreHz, double halfHz, double edgeHz)
        {
            _owner = owner;
            double binHz = owner.RateHz / owner.Size;
            int size = 64;
            while (size < owner.Size && size * binHz < 2.4 * (halfHz + edgeHz))
            {
                size *= 2;
            }

            size = Math.Min(size, owner.Size);
            _inverse = new FastTransform(size);
            _re = new float[size];
            _im = new float[size];
            _gain = new float[size];
            RateHz = size * binHz;
            int centre = (int)Math.Round(centreHz / binHz);
            _residualHz = centreHz - centre * binHz;
            _first = centre - size / 2;
            for (int k = 0; k < size; k++)
            {
                double f = Math.Abs((k - size / 2) * binHz - _residualHz);
                double into = (f - halfHz) / edgeHz;
                double g = into <= 0 ? 1 : into >= 1 ? 0 : 0.5 * (1 + Math.Cos(Math.PI * into));
                _gain[k] = (float)(g / owner.Size);
            }
        }

        /// <summary>Samples a second of the channel.</summary>
        public double RateHz { get; }

        /// <summary>Samples that each block gives.</summary>
        public int PerBlock => _re.Length / 2;

        /// <summary>Takes the channel's samples of the present block: pairs.</summary>
        public void Take(Span<float> pairs)
        {
            int size = _re.Length;
            for (int k = 0; k < size; k++)
            {
                // The inverse by way of a forward transform: parts exchanged. The order is turned by half, so that the channel's centre is
                // at 0.
                int bin = ((_first + k) % _owner.Size + _owner.Size) % _owner.Size;
                int at = k ^ (size / 2);
                _im[at] = _owner._re[bin] * _gain[k];
                _re[at] = _owner._im[bin] * _gain[k];
            }

            _inverse.Forward(_re, _im);

            // A block begins half a block on from the last: the phase of the centre's bin goes on by that.
            double turn = Math.PI * ((_first + size / 2) % 2 == 0 ? 0 : 1) * (_owner.Position / (_owner.Size / 2) % 2);
            double w = -2 * Math.PI * _residualHz / RateHz;
            for (int n = 0; n < PerBlock; n++)
            {
                float i = _im[n + size / 4];
                float q = _re[n + size / 4];
                (double s, double c) = Math.SinCos((w * (_count + n) + turn) % (2 * Math.PI));
                pairs[2 * n] = (float)(i * c - q * s);
                pairs[2 * n + 1] = (float)(i * s + q * c);
            }

            _count += PerBlock;
        }
    }
}
