using System.Globalization;
using System.Security.Cryptography;
using System.Text.Json;
using System.Text.RegularExpressions;
using Spurless.Files;
using Spurless.Files.Diagnostics;
using Spurless.Files.Json;

namespace Spurless.Signals.Recordings;

/// <summary>
/// Reads SigMF recordings (text and schema of the specification, version 1.2.5): a JSON text that describes, and a file of bare samples.
/// </summary>
public static partial class SigMfReader
{
    private const double MaxRateHz = 1e9;
    private const double MinRateHz = 1; // a recording lasts for no ages
    private const string AsTheSpecification = "write it as the SigMF specification says";

    /// <summary>Reads the description and joins it with its samples.</summary>
    /// <param name="meta">The text of the <c>.sigmf-meta</c> file.</param>
    /// <param name="metaName">Its name, for findings.</param>
    /// <param name="openData">Opens the samples, which must be able to seek: by the name the description gives (<c>core:dataset</c>), or by
    /// null the
    /// <c>.sigmf-data</c> file beside it. Null where there is none.</param>
    /// <param name="dataName">The samples' name, for findings.</param>
    /// <param name="centreHz">The frequency in the middle, where the user gives it; it wins.</param>
    /// <param name="findings">What is wrong.</param>
    /// <param name="cancellationToken">Stops the reading.</param>
    /// <returns>The recording, or null where it cannot be used.</returns>
    public static Recording? Open(
        ReadOnlySpan<byte> meta,
        string metaName,
        Func<string?, Stream?> openData,
        string dataName,
        double? centreHz,
        DiagnosticBag findings,
        CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(openData);
        ArgumentNullException.ThrowIfNull(findings);
        PositionedJson? root = PositionedJson.Read(
            meta, metaName, findings, "write it as the SigMF specification says, with the parts 'global', 'captures' and 'annotations'");
        if (root is null)
        {
            return null;
        }

        Meta m = new(metaName, root, findings);
        RecordingFormat? format = m.Format();
        IReadOnlyList<PositionedJson>? captures = m.Captures();
        m.Extensions();
        if (captures is not null && format is { IsComplex: true } && centreHz is null)
        {
            m.NeedCentres(captures);
        }

        if (findings.HasErrors)
        {
            return null;
        }

        Stream? data = openData(m.Global?["core:dataset"]?.Text);
        if (data is null)
        {
            findings.Error(dataName, -1, -1, "there is no such file: the samples of the recording are missing",
                "put it beside the .sigmf-meta file, under the same name");
            return null;
        }

        if (m.Global?["core:sha512"] is { } wanted)
        {
            cancellationToken.ThrowIfCancellationRequested();
            data.Position = 0;
            string got = Convert.ToHexStringLower(SHA512.HashData(data));
            data.Position = 0;
            if (!string.Equals(got, wanted.Text, StringComparison.OrdinalIgnoreCase))
            {
                findings.Error(
                    metaName, wanted.Line, wanted.Column, "the sha512 here is not that of the samples: they were changed or cut short",
                        "copy both files again, or take the line out if you trust them");
                return null;
            }
        }

        return Build(m, format!, captures!, data, dataName, centreHz, findings);
    }

    private static Recording? Build(
        Meta m, RecordingFormat format, IReadOnlyList<PositionedJson> captures, Stream data, string dataName, double? centreHz,
            DiagnosticBag findings)
    {
        int stride = format.Width * format.Channels * (format.IsComplex ? 2 : 1);
        long length = Math.Max(0, data.Length - (long)(m.Global!["core:trailing_bytes"]?.Number ?? 0));
        long offset = (long)(m.Global["core:offset"]?.Number ?? 0);
        List<Capture> list = [];
        long octet = 0;
        Clock clock = new(format.RateHz);
        for (int i = 0; i < Math.Max(1, captures.Count); i++)
        {
            PositionedJson? at = i < captures.Count ? captures[i] : null;
            long first = Math.Max(0, (long)(at?["core:sample_start"]?.Number ?? 0) - offset);
            long? next = i + 1 < captures.Count ? (long)(captures[i + 1]["core:sample_start"]?.Number ?? 0) - offset : null;
            octet += (long)(at?["core:header_bytes"]?.Number ?? 0) + (i == 0 ? first * stride : 0);
            long there = Math.Max(0, (length - octet) / stride);
            long frames = next is { } n ? Math.Min(n - first, there) : there;
            if (next - first > there)
            {
                findings.Warning(dataName, -1, -1,
                    string.Create(CultureInfo.InvariantCulture,
                        $"the description claims {next - first} samples in a capture, {there} are there"),
                    "these were used; the recording was cut short or its description is wrong");
            }

            double startS = clock.Start(at, i == 0);
            if (frames > 0)
            {
                list.Add(new Capture(first, frames, startS, format.IsComplex ? centreHz ?? at?["core:frequency"]?.Number : null, octet));
            }

            clock.Pass(frames);
            octet += frames * stride;
        }

        if (list.Count == 0)
        {
            findings.Error(dataName, -1, -1, "there are no samples in it", "record again, or check that the copy is complete");
            return null;
        }

        if ((length - list[0].Octet) % stride != 0 && captures.All(static c => c["core:header_bytes"] is null))
        {
            findings.Warning(dataName, -1, -1, "the last octets are no whole sample", "they were left out; the recording was cut short");
        }

        return new Recording(data, dataName, findings, format, list, stride, 0, clock.Began);
    }

    [GeneratedRegex("^(?<kind>[cr])(?<type>f32|f64|i32|i16|u32|u16|i8|u8)(?<order>_le|_be)?$", RegexOptions.CultureInvariant)]
    private static partial Regex Datatype();

    /// <summary>When captures begin: by the recorder's own count of samples, by its clock, or one behind the other.</summary>
    private sealed class Clock(double rateHz)
    {
        private double? _firstIndex;
        private double _nowS;

        /// <summary>When the first capture began, where that is said.</summary>
        public DateTimeOffset? Began { get; private set; }

        /// <summary>When a capture begins, in seconds from the first.</summary>
        public double Start(PositionedJson? capture, bool isFirst)
        {
            DateTimeOffset? time = capture?["core:datetime"]?.Text is { } text
                && DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture,
                    DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out DateTimeOffset parsed)
                ? parsed : null;
            double? index = capture?["core:global_index"]?.Number;
            if (isFirst)
            {
                (Began, _firstIndex) = (time, index);
            }
            else if (index - _firstIndex is { } samples && samples / rateHz > _nowS)
            {
                // Counted by the recorder's own samples: finer than a clock.
                _nowS = samples / rateHz;
            }
            else if (time - Began is { } since && since.TotalSeconds > _nowS)
            {
                _nowS = since.TotalSeconds;
            }

            return _nowS;
        }

        /// <summary>Goes on by so many samples.</summary>
        public void Pass(long frames) => _nowS += frames / rateHz;
    }

    /// <summary>The description, with what is wrong about it told on the way.</summary>
    private sealed class Meta(string file, PositionedJson root, DiagnosticBag findings)
    {
        public PositionedJson? Global { get; } = root["global"];

        public RecordingFormat? Format()
        {
            if (Global is null)
            {
                Error(
                    root,
                    "the part 'global' is missing",
                    "write at least \"global\": { \"core:datatype\": \"ci16_le\", \"core:sample_rate\": 1000000, "
                    + "\"core:version\": \"1.2.5\" }");
                return null;
            }

            double? rate = Number(Global, "core:sample_rate", needed: true);
            if (rate is < MinRateHz or > MaxRateHz)
            {
                Error(Global["core:sample_rate"]!, $"{Global["core:sample_rate"]!.Text} samples a second cannot be",
                    "write the rate in samples a second, from 1 to 1,000,000,000");
            }

            double channels = Number(Global, "core:num_channels", needed: false) ?? 1;
            if (channels is < 1 or > 64)
            {
                Error(Global["core:num_channels"]!, "so many channels cannot be", "write 1, or leave it out");
                channels = 1;
            }

            PositionedJson? type = Global["core:datatype"];
            if (type?.Text is not { } text)
            {
                Error(type ?? Global, "'core:datatype' is missing", "say how the samples are written, like \"core:datatype\": \"ci16_le\"");
                return null;
            }

            Match match = Datatype().Match(text);
            if (!match.Success)
            {
                Error(type, $"the datatype '{Quote.Short(text)}' is not known", "write one like ci8, cu8, ci16_le or cf32_le");
                return null;
            }

            SampleCoding coding = match.Groups["type"].Value switch
            {
                "f32" => SampleCoding.Float32,
                "f64" => SampleCoding.Float64,
                "i32" => SampleCoding.Signed32,
                "u32" => SampleCoding.Unsigned32,
                "i16" => SampleCoding.Signed16,
                "u16" => SampleCoding.Unsigned16,
                "i8" => SampleCoding.Signed8,
                _ => SampleCoding.Unsigned8,
            };
            return rate is null ? null : new RecordingFormat(
                rate.Value, (int)channels, match.Groups["kind"].Value == "c", coding, match.Groups["order"].Value == "_be");
        }

        public IReadOnlyList<PositionedJson>? Captures()
        {
            PositionedJson? captures = root["captures"];
            if (captures is null || captures.Type != JsonTokenType.StartArray)
            {
                Error(captures ?? root, "the list 'captures' is missing",
                    "write \"captures\": [ { \"core:sample_start\": 0, \"core:frequency\": 145050000 } ]");
                return null;
            }

            double last = -1;
            foreach (PositionedJson capture in captures.Items)
            {
                double? start = Number(capture, "core:sample_start", needed: true);
                Number(capture, "core:frequency", needed: false);
                if (Number(capture, "core:header_bytes", needed: false) is < 0)
                {
                    Error(capture["core:header_bytes"]!, "a head of fewer than no bytes cannot be",
                        "write how many bytes stand before the samples, or leave it out");
                }

                Number(capture, "core:global_index", needed: false);
                if (start < last || start is < 0 or > 1e15)
                {
                    Error(capture["core:sample_start"]!, "the captures are not in the order of their 'core:sample_start'", "sort them");
                }

                last = start ?? last;
            }

            return captures.Items;
        }

        public void Extensions()
        {
            foreach (PositionedJson extension in Global?["core:extensions"]?.Items ?? [])
            {
                if (extension["optional"]?.Text == "false")
                {
                    Error(
                        extension,
                        $"the extension '{Quote.Short(extension["name"]?.Text ?? "")}' is needed to understand the recording, "
                        + "and is not known here",
                        "take the recording through the program that wrote it, without that extension");
                }
            }

            foreach (string count in new[] { "core:trailing_bytes", "core:offset" })
            {
                if (Global is not null)
                {
                    Number(Global, count, needed: false);
                }
            }
        }

        public void NeedCentres(IReadOnlyList<PositionedJson> captures)
        {
            PositionedJson? without = captures.Count == 0
                ? root["captures"]
                : captures.FirstOrDefault(static c => c["core:frequency"] is null);
            if (without is not null)
            {
                Error(without, "the frequency in the middle of the band is not said",
                    "write \"core:frequency\": 145050000 (in hertz) here, or give --centre \"145.05 MHz\"");
            }
        }

        private double? Number(PositionedJson of, string key, bool needed)
        {
            PositionedJson? value = of[key];
            if (value is null)
            {
                if (needed)
                {
                    Error(of, $"'{key}' is missing", $"write \"{key}\": and a number");
                }

                return null;
            }

            if (value.Number is { } v && Math.Abs(v) <= 1e15)
            {
                return v;
            }

            Error(value, $"'{key}' is no number that can be used", AsTheSpecification);
            return null;
        }

        private void Error(PositionedJson at, string what, string remedy) => findings.Error(file, at.Line, at.Column, what, remedy);
    }
}
