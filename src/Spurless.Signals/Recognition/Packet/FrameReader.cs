namespace Spurless.Signals.Recognition.Packet;

/// <summary>
/// Takes the bits behind a line code apart into flags and frames and checks each frame's check sequence (HDLC, as AX.25 uses it). The
/// octets are run through the check and forgotten: neither calls nor content leave this class.
/// </summary>
internal sealed class FrameReader
{
    /// <summary>Shortest frame that counts: two addresses, a control octet and the check sequence.</summary>
    public const int LeastOctets = 17;

    private const int MostOctets = 4_096;
    private const int Address = 7;
    private const int Residue = 0xF0B8;

    private int _ones;
    private int _window;
    private int _bits;
    private int _octet;
    private int _octets;
    private int _check;
    private int _addressEnd;
    private bool _inFrame;
    private bool _lost;
    private long _frameStart;
    private long _lastFlagBit = -1_000;
    private long _bit;
    private int _run;

    /// <summary>
    /// Frames found: where they begin and end (in the caller's samples), whether the check holds, and whether it begins as AX.25 has it
    /// (from memory): two to ten addresses of seven octets, of which the last octet alone has its lowest bit set. Random bits do by 1 in
    /// 8,000.
    /// </summary>
    public List<(long From, long To, bool Good, bool Addressed)> Frames { get; } = [];

    /// <summary>Runs of flags without anything between: first and last moment, how many.</summary>
    public List<(long From, long To, int Count)> FlagRuns { get; } = [];

    /// <summary>Takes one bit.</summary>
    /// <param name="bit">The bit.</param>
    /// <param name="at">When it was, in the caller's samples.</param>
    /// <param name="perBit">Samples of a bit.</param>
    public void Push(int bit, long at, double perBit)
    {
        _bit++;
        _window = (_window << 1 | bit) & 0xFF;
        if (_window == 0x7E)
        {
            Flag(at, perBit);
            return;
        }

        if (bit == 1)
        {
            _ones++;
            if (_ones >= 7)
            {
                _inFrame = false;
            }

            Take(1);
            return;
        }

        if (_ones != 5)
        {
            Take(0);
        }

        _ones = 0;
    }

    /// <summary>Passes a bit that is not known: a frame that was begun goes on to its flag, but is not good.</summary>
    public void Lose()
    {
        _bit++;
        _window = 0;
        _ones = 0;
        _lost = true;
    }

    private void Flag(long at, double perBit)
    {
        // The flag's first seven bits stand in the octet register already: what was complete before them is the frame.
        if (_inFrame && (_lost || _octets >= LeastOctets))
        {
            bool addressed = !_lost && _addressEnd % Address == 0 && _addressEnd / Address is >= 2 and <= 10
                && _octets >= _addressEnd + LeastOctets - 2 * Address;
            Frames.Add((_frameStart, at, !_lost && _bits == 7 && (_check & 0xFFFF) == Residue, addressed));
        }

        bool joined = _bit - _lastFlagBit is 7 or 8;
        if (joined && FlagRuns.Count > 0)
        {
            FlagRuns[^1] = (FlagRuns[^1].From, at, ++_run);
        }
        else
        {
            _run = 1;
            FlagRuns.Add((at - (long)(8 * perBit), at, 1));
        }

        _lastFlagBit = _bit;
        _inFrame = true;
        _lost = false;
        _frameStart = at;
        _ones = 0;
        _bits = 0;
        _octet = 0;
        _octets = 0;
        _check = 0xFFFF;
        _addressEnd = 0;
    }

    private void Take(int bit)
    {
        if (!_inFrame)
        {
            return;
        }

        _octet = _octet >> 1 | bit << 7;
        if (++_bits < 8)
        {
            return;
        }

        // x^16 + x^12 + x^5 + 1, lowest bit first.
        _check ^= _octet;
        for (int b = 0; b < 8; b++)
        {
            _check = (_check & 1) != 0 ? _check >> 1 ^ 0x8408 : _check >> 1;
        }

        _octets++;
        _addressEnd = _addressEnd == 0 && (_octet & 1) != 0 ? _octets : _addressEnd;
        _bits = 0;
        _octet = 0;
        if (_octets > MostOctets)
        {
            _inFrame = false;
        }
    }
}
