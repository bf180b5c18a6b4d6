using Spurless.Files.Diagnostics;
using Spurless.Signals.Recordings;
using Spurless.Signals.Spectra;
using Spurless.Sites.Recordings;

namespace Spurless.Sites.Surveys;

/// <summary>One sweep of a survey as it comes to the search for lines: its levels at the instrument's input.</summary>
/// <param name="Sweep">The readings.</param>
/// <param name="ResolutionHz">Noise bandwidth of the bins in hertz that is counted with.</param>
/// <param name="IsRelative">Whether the levels count from a recording's full scale, because nobody said what that is in dBm.</param>
/// <param name="CentreHz">The middle of a recorded band; null for a sweep.</param>
/// <param name="Remarks">What has to be said of it.</param>
internal sealed record SurveySource(
    Sweep Sweep, double ResolutionHz, bool IsRelative, double? CentreHz, IReadOnlyList<SurveyRemark> Remarks)
{
    /// <summary>More samples than this at full scale tell of overload: noise alone gets there hardly ever.</summary>
    private const double ClippedFrom = 1e-5;

    /// <summary>Reads a file: a table of levels, or a SigMF recording.</summary>
    /// <param name="path">Its name.</param>
    /// <param name="question">What is asked.</param>
    /// <param name="diagnostics">Takes what is wrong.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>Its sweeps; null where it cannot be used.</returns>
    public static IReadOnlyList<SurveySource>? Read(
        string path, SurveyQuestion question, DiagnosticBag diagnostics, CancellationToken cancellationToken)
    {
        if (ListenService.IsSigMf(path))
        {
            return ListenService.With(
                new ListenQuestion { Path = path }, diagnostics, r => Recorded(r, path, question, diagnostics, cancellationToken),
                cancellationToken);
        }

        return Table(path, question, diagnostics) is { } sweep && AtInstrument(sweep, question.Through, diagnostics) is { } at
            ? [new SurveySource(at, question.ResolutionHz ?? at.SpacingHz, false, null, [])]
            : null;
    }

    private static Sweep? Table(string path, SurveyQuestion question, DiagnosticBag diagnostics)
    {
        if (path == "-" && question.Input is { } input)
        {
            return SweepReader.Read(input, path, question.Columns, diagnostics);
        }

        if (!File.Exists(path))
        {
            diagnostics.Error(path, 0, 0, "there is no such file", "check the name");
            return null;
        }

        using StreamReader reader = new(path);
        return SweepReader.Read(reader, path, question.Columns, diagnostics);
    }

    /// <summary>
    /// Field strength E in dBuV/m is a level of E less the antenna's factor at its connector: the instrument has counted all else in.
    /// </summary>
    private static Sweep? AtInstrument(Sweep sweep, SurveyChain chain, DiagnosticBag diagnostics)
    {
        if (sweep.IsFieldStrength && !chain.HasAntennaFactor)
        {
            diagnostics.Error(
                sweep.File,
                0,
                0,
                "its levels are a field strength: at the antenna's connector they are not known without the antenna's factor",
                "give it: --chain \"antenna factor antenna.csv\", or \"antenna factor 12 dB at 145 MHz\", in dB per metre");
            return null;
        }

        if (!sweep.IsFieldStrength)
        {
            if (chain.HasAntennaFactor)
            {
                diagnostics.Error(
                    sweep.File,
                    0,
                    0,
                    "its levels are no field strength, so there is no antenna factor in them",
                    "leave the antenna factor out, or name the column's unit: [dBuV/m]");
                return null;
            }

            return sweep;
        }

        double[] shift = [.. sweep.FrequenciesHz.Select(f => chain.GainDb(f) - chain.AntennaFactorDb(f))];
        return sweep with { RowsDbm = [.. sweep.RowsDbm.Select(r => r.Select((l, i) => l + shift[i]).ToArray())] };
    }

    private static List<SurveySource>? Recorded(
        Recording recording, string path, SurveyQuestion question, DiagnosticBag diagnostics, CancellationToken cancellationToken)
    {
        if (!recording.Format.IsComplex)
        {
            diagnostics.Error(
                path,
                -1,
                -1,
                "the recording is not complex: it has no frequencies of its own",
                "give one of in-phase and quadrature samples");
            return null;
        }

        IReadOnlyList<RecordedSweep> sweeps = RecordingSweeps.Of(recording, path, question.ResolutionHz, cancellationToken);
        if (sweeps.Count == 0)
        {
            diagnostics.Error(path, -1, -1, "the recording is too short for a spectrum", "record at least 0.1 s");
            return null;
        }

        return [.. sweeps.Select(s => Of(s, question.FullScaleDbm))];
    }

    private static SurveySource Of(RecordedSweep recorded, double? fullScaleDbm)
    {
        Sweep sweep = recorded.Sweep;
        if (fullScaleDbm is { } full)
        {
            sweep = sweep with { RowsDbm = [.. sweep.RowsDbm.Select(r => r.Select(l => l + full).ToArray())] };
        }

        List<SurveyRemark> remarks =
        [
            new SurveyRemark.RecordedRows(Path.GetFileName(sweep.File), recorded.ResolutionHz, sweep.RowsDbm.Count, recorded.RowS),
        ];
        if (fullScaleDbm is null)
        {
            remarks.Add(new SurveyRemark.FullScaleUnknown(Path.GetFileName(sweep.File)));
        }

        if (recorded.ClippedShare > ClippedFrom)
        {
            remarks.Add(new SurveyRemark.Clipped(Path.GetFileName(sweep.File), recorded.ClippedShare));
        }

        return new SurveySource(sweep, recorded.ResolutionHz, fullScaleDbm is null, recorded.CentreHz, remarks);
    }
}
