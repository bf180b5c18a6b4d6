using System.Buffers.Binary;
using System.Globalization;
using Spurless.Files.Diagnostics;

namespace Spurless.Signals.Recordings;

/// <summary>What is taken from a WAV with two channels.</summary>
public enum WavUse
{
    /// <summary>One channel as audio: the only one, or of two the left one, which is said.</summary>
    Audio,

    /// <summary>The left channel as audio.</summary>
    Left,

    /// <summary>The right channel as audio.</summary>
    Right,

    /// <summary>Left in-phase, right quadrature.</summary>
    Iq,
}

/// <summary>
/// Reads WAV: PCM of 8, 16, 24 and 32 bits, float of 32 and 64, A-law and mu-law, plain or extensible heads, RF64 for sizes over 4 GB.
/// A file cut short, or whose header claims more than there is, is read to its end, which is said.
/// </summary>
public static class WavReader
{
    /// <summary>Highest rate of a WAV, in samples a second.</summary>
    public const double MaxRateHz = 10e6;

    private const int FormatPcm = 1;
    private const int FormatFloat = 3;
    private const int FormatALaw = 6;
    private const int FormatMuLaw = 7;
    private const int FormatExtensible = 0xFFFE;

    /// <summary>Reads the head of a WAV.</summary>
    /// <param name="stream">The file; it must be able to seek.</param>
    /// <param name="name">The file's name, for findings.</param>
    /// <param name="use">Audio or complex samples, and which channel.</param>
    /// <param name="centreHz">The frequency in the middle, for complex samples.</param>
    /// <param name="findings">What is wrong with it.</param>
    /// <returns>The recording, or null where it cannot be used.</returns>
    public static Recording? Open(Stream stream, string name, WavUse use, double? centreHz, DiagnosticBag findings)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(findings);
        if (stream.Length == 0)
        {
            return Refuse(findings, name, "the file is empty", "record again, or check that the copy is complete");
        }

        if (!IsWave(stream))
        {
            return Refuse(findings, name, "this is no WAV: it does not begin with RIFF and WAVE",
                "give a WAV, or a SigMF recording by its .sigmf-meta file");
        }

        Described described = new();
        Span<byte> chunk = stackalloc byte[8];
        while (stream.ReadAtLeast(chunk, 8, throwOnEndOfStream: false) == 8)
        {
            uint size = BinaryPrimitives.ReadUInt32LittleEndian(chunk[4..]);
            long begins = stream.Position;
            if (Is(chunk, "data"))
            {
                return described.Format is null
                    ? Refuse(findings, name, "the samples stand before the description of their format",
                        "write the file again with its 'fmt ' part first")
                    : Build(stream, name, use, centreHz, findings, described.Format, size, described.LongSize, begins, stream.Length);
            }

            if (!described.Take(stream, chunk, size))
            {
                return Refuse(findings, name, "the description of the samples is cut short", "check that the copy is complete");
            }

            long next = begins + size + (size & 1);
            if (next > stream.Length)
            {
                break;
            }

            stream.Position = next;
        }

        return Refuse(
            findings, name, described.Format is null ? "no description of the samples was found"
                : "no samples were found", "check that the copy is complete");
    }

    private static bool IsWave(Stream stream)
    {
        Span<byte> head = stackalloc byte[12];
        return stream.ReadAtLeast(head, 12, throwOnEndOfStream: false) == 12
            && (Is(head, "RIFF") || Is(head, "RF64") || Is(head, "BW64")) && Is(head[8..], "WAVE");
    }

    private static SampleCoding? Coding(Head head) => (head.Tag, head.Bits) switch
    {
        (FormatPcm, 8) => SampleCoding.Unsigned8,
        (FormatPcm, 16) => SampleCoding.Signed16,
        (FormatPcm, 24) => SampleCoding.Signed24,
        (FormatPcm, 32) => SampleCoding.Signed32,
        (FormatFloat, 32) => SampleCoding.Float32,
        (FormatFloat, 64) => SampleCoding.Float64,
        (FormatALaw, 8) => SampleCoding.ALaw,
        (FormatMuLaw, 8) => SampleCoding.MuLaw,
        _ => null,
    };

    // Why a head cannot be used, every reason, each with what to do.
    private static IEnumerable<(string What, string Remedy)> Refusals(WavUse use, Head head)
    {
        if (Coding(head) is null)
        {
            yield return (
                string.Create(CultureInfo.InvariantCulture,
                    $"the samples are of coding {head.Tag} with {head.Bits} bits, which is not known"),
                "save it as PCM of 8, 16, 24 or 32 bits, as float, A-law or mu-law");
        }

        if (head.Rate is 0 or > MaxRateHz)
        {
            yield return (string.Create(CultureInfo.InvariantCulture, $"the header says {head.Rate:0} samples a second"),
                "1 to 10,000,000 can be; write the true rate into the header");
        }

        if (head.Channels == 0)
        {
            yield return ("the header says 0 channels", "write the true number into the header");
        }

        if (use is WavUse.Iq or WavUse.Right && head.Channels == 1)
        {
            yield return ("the recording has one channel", use == WavUse.Iq
                ? "in-phase and quadrature need two, left and right; without --centre it is read as audio" : "leave --channel-of out");
        }

        if (use == WavUse.Audio && head.Channels >= 2 && head.Rate > 192_000)
        {
            yield return (
                string.Create(CultureInfo.InvariantCulture,
                    $"two channels at {head.Rate:0} samples a second are a band, and its centre is not known"),
                "give --centre \"145.05 MHz\" (where the receiver stood), or --channel-of left for audio");
        }
    }

    // Octets of samples that are used: those claimed, as far as they are there.
    private static long Used(string name, DiagnosticBag findings, uint size, ulong longSize, long there)
    {
        ulong claimed = longSize > 0 && size == uint.MaxValue ? longSize : size;
        long used = (long)Math.Min((ulong)there, claimed);
        if (claimed == 0 && there > 0 || size == uint.MaxValue && longSize == 0)
        {
            used = there;
            findings.Warning(
                name, -1, -1, $"the header gives no length of the samples, {Octets(there)} stand behind it",
                    "all of them were used; check the header if other data follow");
        }
        else if (claimed > (ulong)there)
        {
            findings.Warning(
                name, -1, -1, $"the header claims {Octets(claimed)} of samples, {Octets(there)} are there",
                    "these were used; the recording was cut short or its header is wrong");
        }

        return used;
    }

    private static Recording? Build(
        Stream stream, string name, WavUse use, double? centreHz, DiagnosticBag findings, Head head, uint size, ulong longSize,
            long begins, long length)
    {
        (string What, string Remedy)[] refusals = [.. Refusals(use, head)];
        foreach ((string what, string remedy) in refusals)
        {
            Refuse(findings, name, what, remedy);
        }

        if (refusals.Length > 0 || Coding(head) is not { } coding)
        {
            return null;
        }

        RecordingFormat format = new(head.Rate, head.Channels, use == WavUse.Iq, coding);
        int stride = format.Width * head.Channels;
        if (head.Block != stride)
        {
            findings.Warning(
                name, -1, -1, string.Create(CultureInfo.InvariantCulture,
                    $"the header says {head.Block} octets a sample, its other figures {stride}"), "read by the latter; check the header");
        }

        long used = Used(name, findings, size, longSize, length - begins);
        long frames = used / stride;
        if (frames == 0)
        {
            return Refuse(findings, name, "there are no samples in it", "record again, or check that the copy is complete");
        }

        if (used % stride != 0)
        {
            findings.Warning(name, -1, -1, $"the last {used % stride} octets are no whole sample",
                "they were left out; the recording was cut short");
        }

        if (head.Rate < 8_000)
        {
            findings.Warning(
                name,
                -1,
                -1,
                string.Create(CultureInfo.InvariantCulture, $"{head.Rate:0} samples a second hold little of a transmission"),
                "record with 8,000 or more, 48,000 if you can");
        }

        if (use == WavUse.Audio && head.Channels > 1)
        {
            findings.Warning(
                name,
                -1,
                -1,
                string.Create(CultureInfo.InvariantCulture, $"the recording has {head.Channels} channels; the left one was used"),
                "choose with --channel-of left or right; if it is a band, give --centre");
        }

        return new Recording(stream, name, findings, format, [new Capture(0, frames, 0, use == WavUse.Iq ? centreHz : null, begins)],
            stride, use == WavUse.Right ? 1 : 0, null);
    }

    private static string Octets(long count) => string.Create(CultureInfo.InvariantCulture, $"{count:#,0} octets");

    private static string Octets(ulong count) => string.Create(CultureInfo.InvariantCulture, $"{count:#,0} octets");

    private static Recording? Refuse(DiagnosticBag findings, string name, string what, string remedy)
    {
        findings.Error(name, -1, -1, what, remedy);
        return null;
    }

    private static bool Is(ReadOnlySpan<byte> octets, string text)
    {
        for (int i = 0; i < 4; i++)
        {
            if (octets[i] != text[i])
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>What the parts before the samples say.</summary>
    private sealed class Described
    {
        public Head? Format { get; private set; }

        /// <summary>Octets of samples where 32 bits do not hold them; 0 where that is not said.</summary>
        public ulong LongSize { get; private set; }

        /// <summary>Reads a part, where it is one that says something; false where it is cut short.</summary>
        public bool Take(Stream stream, ReadOnlySpan<byte> chunk, uint size)
        {
            if (Is(chunk, "ds64") && size >= 16)
            {
                Span<byte> sizes = stackalloc byte[16];
                stream.ReadAtLeast(sizes, 16, throwOnEndOfStream: false);
                LongSize = BinaryPrimitives.ReadUInt64LittleEndian(sizes[8..]);
            }
            else if (Is(chunk, "fmt "))
            {
                Span<byte> body = stackalloc byte[40];
                body.Clear();
                int wanted = (int)Math.Min(40, size);
                if (stream.ReadAtLeast(body[..wanted], wanted, throwOnEndOfStream: false) < 14)
                {
                    return false;
                }

                Format = Head.Read(body);
            }

            return true;
        }
    }

    /// <summary>The figures of a <c>fmt </c> part; of an extensible one the coding is that of its identifier.</summary>
    private sealed record Head(int Tag, int Channels, double Rate, int Block, int Bits)
    {
        public static Head Read(ReadOnlySpan<byte> body)
        {
            int tag = BinaryPrimitives.ReadUInt16LittleEndian(body);
            return new(
                tag == FormatExtensible ? BinaryPrimitives.ReadUInt16LittleEndian(body[24..]) : tag,
                BinaryPrimitives.ReadUInt16LittleEndian(body[2..]),
                BinaryPrimitives.ReadUInt32LittleEndian(body[4..]),
                BinaryPrimitives.ReadUInt16LittleEndian(body[12..]),
                BinaryPrimitives.ReadUInt16LittleEndian(body[14..]));
        }
    }
}
