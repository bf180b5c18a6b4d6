using Spurless.Files.Diagnostics;

namespace Spurless.Signals.Recordings;

/// <summary>
/// The samples of a recording, read from front to back in bounded memory. Made by <see cref="WavReader"/> and <see cref="SigMfReader"/>,
/// which say what is wrong with a file; what turns out only while reading (not numbers, too few samples) is told to the same findings.
/// </summary>
public sealed class Recording
{
    // Moments in a description are often whole milliseconds.
    private const double LeastGapS = 0.002;

    private readonly Stream _data;
    private readonly string _name;
    private readonly DiagnosticBag _findings;
    private readonly int _stride;
    private readonly int _firstValue;
    private readonly byte[] _octets;
    private long _at;
    private int _capture = -1;
    private long _left;
    private long _notNumbers;

    internal Recording(
        Stream data, string name, DiagnosticBag findings, RecordingFormat format, IReadOnlyList<Capture> captures, int stride,
            int firstValue, DateTimeOffset? start)
    {
        _data = data;
        _name = name;
        _findings = findings;
        _stride = stride;
        _firstValue = firstValue;
        _octets = new byte[stride * Math.Max(1, 65_536 / stride)];
        Format = format;
        Captures = captures;
        Start = start;
    }

    /// <summary>How the samples are written.</summary>
    public RecordingFormat Format { get; }

    /// <summary>The stretches without a break, in order of time.</summary>
    public IReadOnlyList<Capture> Captures { get; }

    /// <summary>When the first sample was taken, where the file says so.</summary>
    public DateTimeOffset? Start { get; }

    /// <summary>From the first sample to behind the last, in seconds, gaps included.</summary>
    public double DurationS => Captures.Max(c => c.StartS + c.Frames / Format.RateHz);

    /// <summary>The stretches of time that were recorded, from and to in seconds; captures without a gap between them are one.</summary>
    public IReadOnlyList<(double FromS, double ToS)> Recorded
    {
        get
        {
            List<(double FromS, double ToS)> list = [];
            foreach (Capture capture in Captures)
            {
                double toS = capture.StartS + capture.Frames / Format.RateHz;
                if (list.Count > 0 && capture.StartS - list[^1].ToS < LeastGapS)
                {
                    list[^1] = (list[^1].FromS, Math.Max(list[^1].ToS, toS));
                }
                else
                {
                    list.Add((capture.StartS, toS));
                }
            }

            return list;
        }
    }

    /// <summary>Goes back to before the first capture.</summary>
    public void Rewind()
    {
        _capture = -1;
        _left = 0;
    }

    /// <summary>Goes on to the next capture.</summary>
    /// <returns>It, or null behind the last.</returns>
    public Capture? Next()
    {
        if (++_capture >= Captures.Count)
        {
            return null;
        }

        Capture capture = Captures[_capture];
        _left = capture.Frames;
        Seek(capture.Octet);
        return capture;
    }

    /// <summary>Reads on in this capture.</summary>
    /// <param name="to">Gets one value a sample, of complex recordings two.</param>
    /// <returns>How many samples were read; fewer than asked for only at the capture's end.</returns>
    public int Read(Span<float> to)
    {
        int values = Format.IsComplex ? 2 : 1;
        int done = 0;
        int wanted = to.Length / values;
        while (done < wanted && _left > 0)
        {
            int frames = (int)Math.Min(Math.Min(wanted - done, _left), _octets.Length / _stride);
            int got = _data.ReadAtLeast(_octets.AsSpan(0, frames * _stride), frames * _stride, throwOnEndOfStream: false);
            _at += got;
            got /= _stride;
            _notNumbers += SampleDecoder.Decode(_octets.AsSpan(0, got * _stride), Format, _stride, _firstValue, values,
                to[(done * values)..]);
            done += got;
            _left -= got;
            if (got < frames)
            {
                _left = 0;
            }
        }

        if (_left == 0 && _notNumbers > 0 && _capture == Captures.Count - 1)
        {
            _findings.Warning(_name, -1, -1, $"{_notNumbers} values are not numbers",
                "they were taken as 0; record again if what matters lies there");
            _notNumbers = 0;
        }

        return done;
    }

    private void Seek(long octet)
    {
        if (_data.CanSeek)
        {
            _data.Position = octet;
        }
        else
        {
            while (_at < octet)
            {
                int got = _data.Read(_octets.AsSpan(0, (int)Math.Min(_octets.Length, octet - _at)));
                if (got == 0)
                {
                    break;
                }

                _at += got;
            }
        }

        _at = octet;
    }
}
