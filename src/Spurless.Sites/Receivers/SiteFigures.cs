using System.Globalization;
using Spurless.Files;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Files.Yaml.Editing;
using Spurless.Mixing.Measurements;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Documents.Receivers;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Receivers;

/// <summary>
/// Writes a receiver's figures into a site file's text: the keys that the site file has for them, each with a comment of its origin.
/// Everything else stays as it stands, comments too. What stood there is said.
/// </summary>
public sealed class SiteFigures
{
    // Two receivers whose channels lie further apart than this share are not the same one retuned.
    private const double SameReceiver = 0.05;

    private readonly ReceiverAnswer _answer;
    private readonly SourceFile _source;
    private readonly DiagnosticBag _diagnostics;
    private readonly List<SiteFigure> _figures = [];
    private readonly int _index;
    private readonly ReceiverEntry _receiver;
    private string _text;

    private SiteFigures(ReceiverAnswer answer, SourceFile source, ReceiverEntry receiver, int index, DiagnosticBag diagnostics)
    {
        (_answer, _source, _receiver, _index, _diagnostics) = (answer, source, receiver, index, diagnostics);
        _text = source.Text;
    }

    /// <summary>Writes them.</summary>
    /// <param name="answer">The figures.</param>
    /// <param name="source">The site file.</param>
    /// <param name="receiver">Name of the receiver there.</param>
    /// <param name="diagnostics">Takes why it cannot be done.</param>
    /// <returns>The new text and what became of the keys; null where there is a finding.</returns>
    public static SiteWithFigures? Write(ReceiverAnswer answer, SourceFile source, string receiver, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(diagnostics);
        if (SourceReader.Site(source, diagnostics) is not { } site)
        {
            return null;
        }

        int index = site.Document.Receivers.Select(static r => r.Name).ToList().IndexOf(receiver);
        if (index < 0)
        {
            site.Document.Source.Error(
                diagnostics, "receivers", $"the site has no receiver '{Quote.Short(receiver)}'",
                Nearest.Find(receiver, [.. site.Document.Receivers.Select(static r => r.Name)]) is { } near
                    ? $"write --receiver \"{near}\""
                    : "name one of its receivers in --receiver");
            return null;
        }

        SiteFigures writer = new(answer, source, site.Document.Receivers[index], index, diagnostics);
        return writer.Fits() && writer.Write(site) ? new SiteWithFigures(writer._text, writer._figures) : null;
    }

    /// <summary>Figures hold for the receiver and the bandwidth that they were measured with.</summary>
    private bool Fits()
    {
        ReceiverMeasurements document = _answer.Document;
        int before = _diagnostics.InOrder().Count;
        if (Math.Abs(_receiver.Frequency.Hertz - document.Frequency.Hertz) > SameReceiver * document.Frequency.Hertz)
        {
            _receiver.Source.Error(
                _diagnostics, "frequency",
                $"'{_receiver.Name}' listens on {_receiver.Frequency}, the measurements are of {document.Frequency}",
                "name the receiver that was measured");
        }

        if (_receiver.Channel != document.Channel)
        {
            _receiver.Source.Error(
                _diagnostics, "channel", $"the site file says a channel of {_receiver.Channel}, the measurements {document.Channel}",
                "correct the one that is wrong");
        }
        else if (ChainBuilder.IfBandwidthHz(_receiver) != document.IfBandwidthHz)
        {
            _receiver.Source.Error(
                _diagnostics, "if_bandwidth",
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"the site file counts noise in {ChainBuilder.IfBandwidthHz(_receiver)} Hz, the measurements in "
                        + $"{document.IfBandwidthHz} Hz"),
                "write the same if_bandwidth in both");
        }

        return _diagnostics.InOrder().Count == before;
    }

    private bool Write(LoadedSite site)
    {
        bool done = Noise() && Intercepts(site) && Blocking();
        if (!done)
        {
            return false;
        }

        if (SiteReader.Read(_text, _source.Path, _source.Folder).Document is null)
        {
            return Refuse("figures", "the site file would no longer be read");
        }

        return true;
    }

    private bool Noise()
    {
        if (_answer.Noise is null || _answer.Sensitivity is null || _answer.NoiseFigure is null)
        {
            return true;
        }

        if (_receiver.Sensitivity is not null)
        {
            // The site's noise is its sensitivity less the usual carrier to noise ratio.
            MeasuredFigure sensitivity = _answer.Noise.Plus(_answer.Document.CarrierToNoiseDb);
            return Set("sensitivity", Level(sensitivity), sensitivity, "");
        }

        if (_answer.NoiseFigure.Value < 0)
        {
            return Refuse("noise_figure", "the noise figure comes out below 0 dB, which no receiver has");
        }

        return Set("noise_figure", Decibels(_answer.NoiseFigure), _answer.NoiseFigure, "");
    }

    private bool Intercepts(LoadedSite site)
    {
        bool corrected = _answer.Intercepts.Any(static i => i.CloseTones && i.From.Any(FarOff));
        string? front = _answer.Document.Measured.OfType<FrontEndReading>().FirstOrDefault()?.Sweep.Path;
        if (corrected && front is not null && _receiver.Selectivity is null && !FrontEnd(front))
        {
            return false;
        }

        double onChannel = OnChannelDb(site);
        List<string> sigmas = [];
        bool onTheAir = false;
        foreach (IGrouping<int, InterceptFinding> order in _answer.Intercepts.GroupBy(static i => i.Order))
        {
            // Of several that hold for their own tones the lowest: it promises the least.
            InterceptFinding finding = order.OrderByDescending(static i => i.CloseTones).ThenBy(static i => i.Figure.Value).First();
            MeasuredFigure atStage = finding.CloseTones ? finding.Figure.Plus(-onChannel) : finding.Figure;
            string how = finding.OnTheAir ? "calibrated on the air" : "two tones";
            if (!finding.CloseTones)
            {
                how += " at " + string.Join(", ", finding.From[0].TonesHz.Select(
                    static f => Radio.Quantities.Frequency.FromHertz(f).ToString())) + ", front end included";
            }

            if (!Set(FormattableString.Invariant($"iip{order.Key}"), Level(atStage), atStage, how, finding))
            {
                return false;
            }

            sigmas.Add(string.Create(CultureInfo.InvariantCulture, $"{Math.Max(0.1, atStage.SigmaDb):0.0} dB at {order.Key}"));
            onTheAir |= finding.OnTheAir;
            if (order.Key == 3 && _receiver.IntermodRejection is { } rejection && !Remove("intermod_rejection"))
            {
                return false;
            }
        }

        // The study counts with them in place of the 3 dB of a data sheet.
        return sigmas.Count == 0
            || (Anew("intercept_uncertainty", YamlValue.List([.. sigmas.Select(YamlValue.Of)]), $"[{string.Join(", ", sigmas)}]")
                && Anew("intercepts_from", YamlValue.Of(onTheAir ? "on the air" : "bench"), onTheAir ? "on the air" : "bench"));
    }

    private static bool FarOff(InterceptReading reading) =>
        reading.Losses.Any(static l => l is not null && (l.Value != 0 || l.Errors.Count > 0));

    /// <summary>
    /// What the selectivity that the site file states takes on the channel: a site's intercept is that of the stage behind it, a
    /// measured one that at the input.
    /// </summary>
    private double OnChannelDb(LoadedSite site)
    {
        if (_receiver.Selectivity is null && _answer.Question.Measurements.FrontEnd is { } front
            && _figures.Exists(static f => f.Key == "selectivity"))
        {
            return -20 * Math.Log10(Math.Max(front.At(_receiver.Frequency.Hertz).S21.Magnitude, 1e-15));
        }

        ReceiveChain chain = ChainBuilder.Build(_receiver, site.Of).Chain;
        return chain.ReferralDb(chain.ActiveStages.Count - 1, _receiver.Frequency.Hertz);
    }

    /// <summary>
    /// An intercept from which the front end was taken out goes with that front end: without it the study would let every far signal
    /// through.
    /// </summary>
    private bool FrontEnd(string path)
    {
        string measured = _answer.Question.Measurements.Inputs[0].Name;
        string beside = Path.Combine(Path.GetDirectoryName(measured) ?? "", path);
        string folder = Path.GetDirectoryName(_source.Path) ?? "";
        string relative = Path.GetRelativePath(folder.Length == 0 ? "." : folder, beside).Replace('\\', '/');
        if (!_source.Folder.Exists(relative))
        {
            return Refuse("selectivity", $"the front end's sweep '{Quote.Short(path)}' is not found from there");
        }

        YamlValue value = YamlValue.Map(("two_port", YamlValue.Of(relative)));
        if (!Insert("selectivity", value, null))
        {
            return false;
        }

        _figures.Add(new SiteFigure("selectivity", null, relative, null, null));
        return true;
    }

    private bool Blocking()
    {
        if (_answer.Blocking is not { Ratio: { Value: > 0 } ratio } blocking)
        {
            return true;
        }

        return Set(
            "blocking", Decibels(ratio), ratio, $"at {Radio.Quantities.Frequency.FromHertz(blocking.FrequencyHz)}");
    }

    private bool Set(string key, string now, MeasuredFigure figure, string how, InterceptFinding? intercept = null)
    {
        string? was = Text(key);
        string sigma = string.Create(CultureInfo.InvariantCulture, $"+-{figure.SigmaDb:0.0} dB");
        string name = Path.GetFileName(_answer.Document.File);
        string comment = $"measured, {sigma}{(how.Length > 0 ? ", " + how : "")} ({name})";
        if (was == now)
        {
            _figures.Add(new SiteFigure(key, was, now, figure, intercept));
            return true;
        }

        bool done = was is null
            ? Insert(key, YamlValue.Of(now), comment)
            : YamlEditor.TrySet(_text, At.Key(key), now, out string? edited, out string? problem)
                ? Keep(WithComment(edited, key, comment))
                : Refuse(key, problem);
        if (done)
        {
            _figures.Add(new SiteFigure(key, was, now, figure, intercept));
        }

        return done;
    }

    private bool Insert(string key, YamlValue value, string? comment) =>
        YamlEditor.TryInsertKey(_text, At, key, value, out string? edited, out string? problem)
            ? Keep(comment is null ? edited : WithComment(edited, key, comment))
            : Refuse(key, problem);

    /// <summary>A key in place of the one that stood there.</summary>
    private bool Anew(string key, YamlValue value, string now)
    {
        string? was = Text(key);
        if (was == now)
        {
            _figures.Add(new SiteFigure(key, was, now, null, null));
            return true;
        }

        if (was is not null)
        {
            if (!YamlEditor.TryRemove(_text, At.Key(key), out string? edited, out string? problem))
            {
                return Refuse(key, problem);
            }

            _text = edited;
        }

        if (!Insert(key, value, null))
        {
            return false;
        }

        _figures.Add(new SiteFigure(key, was, now, null, null));
        return true;
    }

    private bool Remove(string key)
    {
        string? was = Text(key);
        if (!YamlEditor.TryRemove(_text, At.Key(key), out string? edited, out string? problem))
        {
            return Refuse(key, problem);
        }

        _figures.Add(new SiteFigure(key, was, null, null, null));
        return Keep(edited);
    }

    private YamlPath At => YamlPath.Root.Key("receivers").Item(_index);

    private bool Keep(string text)
    {
        _text = text;
        return true;
    }

    private bool Refuse(string key, string problem)
    {
        Refusal refusal = Refusal.OfParser(problem, "write it by hand");
        _receiver.Source.Error(_diagnostics, key, $"'{key}' could not be written into it: {refusal.What}", refusal.Remedy);
        return false;
    }

    private string? Text(string key) => Node(_text, key) switch
    {
        null => null,
        YamlScalar scalar => scalar.Text,
        { } node => YamlValue.Of(node).InOneLine(),
    };

    private YamlNode? Node(string text, string key) => Receiver(text)?.Value(key);

    private YamlMapping? Receiver(string text) =>
        (YamlReader.Read(text, _source.Path, new DiagnosticBag())?.Value("receivers") as YamlSequence)?.Items[_index] as YamlMapping;

    /// <summary>Puts a comment behind a key's line where nothing else stands there; the content must stay the same.</summary>
    private string WithComment(string text, string key, string comment)
    {
        if (Node(text, key) is not YamlScalar value || Receiver(text) is not { IsFlow: false })
        {
            return text;
        }

        int end = text.IndexOf('\n', value.End.Index);
        end = end < 0 ? text.Length : end > 0 && text[end - 1] == '\r' ? end - 1 : end;
        if (text.AsSpan(value.End.Index, end - value.End.Index).Trim().Length > 0)
        {
            return text;
        }

        string commented = text.Insert(end, "    # " + comment.ReplaceLineEndings(" "));
        return Node(commented, key) is YamlScalar kept && kept.Text == value.Text ? commented : text;
    }

    private static string Level(MeasuredFigure figure) =>
        (Math.Round(figure.Value, 1) + 0.0).ToString("0.#", CultureInfo.InvariantCulture) + " dBm";

    private static string Decibels(MeasuredFigure figure) =>
        (Math.Round(figure.Value, 1) + 0.0).ToString("0.#", CultureInfo.InvariantCulture) + " dB";
}
