using System.Collections.Concurrent;
using System.Numerics;
using Spurless.Circuits.TwoPorts;
using Spurless.Mixing.Levels;
using Spurless.Numerics;
using Spurless.Radio.Noise;

namespace Spurless.Sites.Chains;

/// <summary>
/// The way from the antenna connector to the receiver's first active stage, as computed.
/// Between two active stages the passive ones are cascaded as two-ports in 50 ohm, with their mismatch; an amplifier is matched and lets
/// nothing back. The receiver's selectivity stands between the receiver's input and its first active stage.
/// </summary>
public sealed class ReceiveChain
{
    /// <summary>Over this much rejection, leakage round an unscreened circuit decides (common practice).</summary>
    public const double LeakageDecidesFromDb = 70;

    private readonly IPassiveStage[][] _sections;
    private readonly ActiveStage[] _active;
    private readonly IPassiveStage? _selectivity;

    // A chain does not change, and the same few hundred frequencies are asked for over and over: each section keeps what it computed for
    // them.
    private const int MostKept = 8192;
    private readonly ConcurrentDictionary<double, ScatteringMatrix>[] _kept;
    private ReceiveChain? _withoutFilters;

    /// <param name="sections">Passive stages before each active stage, antenna first; one more entry than there are amplifiers.</param>
    /// <param name="amplifiers">The amplifiers of the chain, antenna first.</param>
    /// <param name="receiver">The receiver's first active stage; its noise figure is that of the whole receiver at its input.</param>
    /// <param name="selectivity">What acts between the receiver's input and its first active stage, or null.</param>
    internal ReceiveChain(
        IReadOnlyList<IReadOnlyList<IPassiveStage>> sections,
        IReadOnlyList<ActiveStage> amplifiers,
        ActiveStage receiver,
        IPassiveStage? selectivity)
    {
        _sections = [.. sections.Select(static s => s.ToArray())];
        _active = [.. amplifiers, receiver];
        _selectivity = selectivity;
        _kept = [.. _sections.Select(static _ => new ConcurrentDictionary<double, ScatteringMatrix>())];
        if (_sections.Length != _active.Length)
        {
            throw new ArgumentException("a chain has one passive section before each active stage", nameof(sections));
        }
    }

    /// <summary>The active stages, antenna first; the receiver itself is the last.</summary>
    public IReadOnlyList<ActiveStage> ActiveStages => _active;

    /// <summary>Names of the stages that count as 'the filter', antenna first.</summary>
    public IReadOnlyList<string> Filters =>
        [.. _sections.SelectMany(static s => s).Where(static s => s.IsFilter).Select(static s => s.Name)];

    /// <summary>The same chain with every circuit and measured two-port replaced by a through.</summary>
    public ReceiveChain WithoutFilters() => _withoutFilters ??=
        new([.. _sections.Select(static s => s.Where(static p => !p.IsFilter).ToArray())], _active[..^1], _active[^1], _selectivity);

    /// <summary>Gain from the antenna connector to the receiver's first active stage, selectivity included, in dB.</summary>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    public double GainDb(double frequencyHz) => GainToStageDb(_active.Length - 1, frequencyHz);

    /// <summary>Gain from the antenna connector to the receiver's input, before its selectivity, in dB.</summary>
    public double GainToReceiverInputDb(double frequencyHz)
    {
        double gain = 0;
        for (int i = 0; i < _active.Length; i++)
        {
            gain += SectionDb(i, frequencyHz) + (i < _active.Length - 1 ? _active[i].GainDb : 0);
        }

        return gain;
    }

    /// <summary>Gain from the antenna connector to the input of an active stage, in dB.</summary>
    /// <param name="stage">Index into <see cref="ActiveStages"/>.</param>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    public double GainToStageDb(int stage, double frequencyHz)
    {
        double gain = 0;
        for (int i = 0; i <= stage; i++)
        {
            gain += SectionDb(i, frequencyHz) + (i < stage ? _active[i].GainDb : 0);
        }

        return stage == _active.Length - 1 ? gain + SelectivityDb(frequencyHz) : gain;
    }

    /// <summary>
    /// Gain from the input of an active stage to the receiver's input, in dB: what refers a product made there to the receiver's input.
    /// For the receiver's own stage it is what undoes the selectivity in front of it.
    /// </summary>
    public double ReferralDb(int stage, double frequencyHz)
    {
        if (stage == _active.Length - 1)
        {
            return -SelectivityDb(frequencyHz);
        }

        double gain = 0;
        for (int i = stage; i < _active.Length - 1; i++)
        {
            gain += _active[i].GainDb + SectionDb(i + 1, frequencyHz);
        }

        return gain;
    }

    /// <summary>Gain from the antenna connector through the first feedline of the chain, or 0 dB where it has none.</summary>
    internal double GainToFeedlineEndDb(double frequencyHz)
    {
        int last = Array.FindIndex(_sections[0], static s => s is Feedline);
        return last < 0 ? 0 : Db(Cascade(_sections[0].AsSpan(0, last + 1), frequencyHz).S21);
    }

    /// <summary>Names of the stages that are not known at a frequency and so count as letting everything through.</summary>
    public IReadOnlyList<string> NotCovering(double frequencyHz) =>
    [
        .. _sections.SelectMany(static s => s).Where(s => !s.Covers(frequencyHz)).Select(static s => s.Name),
        .. _selectivity is { } front && !front.Covers(frequencyHz) ? [front.Name] : Array.Empty<string>(),
    ];

    /// <summary>
    /// Noise at the receiver's input, in dBm: <c>k T0 B ((fa - 1) G + F_chain G)</c>, G the chain's available gain from the antenna
    /// connector (Friis; the passive stages stand at 290 K), fa the external noise over kT0. An antenna that brings kT0 itself (0 dB) is
    /// the same as none.
    /// </summary>
    /// <param name="frequencyHz">The channel's centre, in hertz.</param>
    /// <param name="bandwidthHz">Noise bandwidth, in hertz.</param>
    /// <param name="externalOverKt0Db">External noise at the antenna connector in dB over kT0, or null for none.</param>
    /// <remarks>Exact for stages that are matched at their ends; docs/method/noise.md.</remarks>
    public double NoiseFloorDbm(double frequencyHz, double bandwidthHz, double? externalOverKt0Db)
    {
        NoiseCascade noise = NoiseCascade.Source;
        for (int i = 0; i < _active.Length; i++)
        {
            ScatteringMatrix section = Section(i, frequencyHz);
            double match = 1 - (section.S22.Magnitude * section.S22.Magnitude);
            double passive = match > 0
                ? TwoPortAlgebra.AvailableGain(section, Complex.Zero)
                : section.S21.Magnitude * section.S21.Magnitude;
            double active = Math.Pow(10, _active[i].GainDb / 10); // 1 for the receiver itself
            noise = noise.Through(passive).Amplified(active, _active[i].NoiseFigureDb);
        }

        double external = externalOverKt0Db is { } db ? Math.Pow(10, db / 10) : 1;
        double total = noise.Output + ((external - 1) * noise.Gain);
        if (external < 1)
        {
            // A quiet antenna in front of a receiver under 0 dB of noise figure, which none has (the sensitivity's remark says so), would
            // leave less than nothing.
            total = Math.Max(total, noise.Output * external);
        }

        return 10 * Math.Log10(PhysicalConstants.Boltzmann * ThermalNoise.ReferenceKelvin * 1000 * bandwidthHz * total);
    }

    /// <summary>
    /// How far the chain's response can depart from its figure in 50 ohm when antenna and receiver are mismatched: least and greatest
    /// change in dB over all phases of the two reflections, <c>1/|(1 - S11 Ga)(1 - S22 Gr) - S12 S21 Ga Gr|^2</c>
    /// (docs/method/filter-in-line.md). Amplifiers count as matched, so that only a section at an end of the chain sees a reflection.
    /// </summary>
    /// <param name="frequencyHz">Frequency in hertz.</param>
    /// <param name="antenna">Magnitude of the antenna's reflection coefficient, 0 to 1.</param>
    /// <param name="load">Magnitude of the receiver's reflection coefficient, 0 to 1.</param>
    /// <returns>Changes in dB, between -400 and 400.</returns>
    /// <remarks>
    /// The receiver's phase is searched in closed form: the denominator is linear in Gr, so its magnitude runs from <c>||A| - |B Gr||</c>
    /// to <c>|A| + |B Gr|</c>. The antenna's phase is searched in steps of a quarter of a degree, good to 0.001 dB for magnitudes up to
    /// 0.9.
    /// </remarks>
    public (double LowDb, double HighDb) MismatchBandDb(double frequencyHz, double antenna, double load)
    {
        double low = 0;
        double high = 0;
        for (int i = 0; i < _sections.Length; i++)
        {
            (double sectionLow, double sectionHigh) = MismatchBand.Db(
                Section(i, frequencyHz), i == 0 ? antenna : 0, i == _sections.Length - 1 ? load : 0);
            low += sectionLow;
            high += sectionHigh;
        }

        return (low, high);
    }

    /// <summary>What the circuits and sweeps of the chain take from a carrier; null where the chain has none.</summary>
    /// <param name="frequencyHz">The carrier's frequency in hertz.</param>
    /// <param name="antenna">Magnitude of the antenna's reflection coefficient, 0 to 1.</param>
    /// <param name="receiver">Magnitude of the receiver's reflection coefficient, 0 to 1.</param>
    public FilterRejection? RejectionAt(double frequencyHz, double antenna, double receiver)
    {
        IPassiveStage[] filters = [.. _sections.SelectMany(static s => s).Where(static s => s.IsFilter)];
        if (filters.Length == 0)
        {
            return null;
        }

        double nominal = WithoutFilters().GainDb(frequencyHz) - GainDb(frequencyHz);
        if (!Array.TrueForAll(filters, f => f.Covers(frequencyHz)))
        {
            return new FilterRejection(nominal, null, null);
        }

        (double low, double high) = MismatchBandDb(frequencyHz, antenna, receiver);
        return new FilterRejection(nominal, nominal - high, nominal - low);
    }

    /// <summary>
    /// One sentence per circuit without a stated leakage that is computed to reject a carrier by more than
    /// <see cref="LeakageDecidesFromDb"/>.
    /// </summary>
    /// <param name="frequenciesHz">The carriers' frequencies in hertz.</param>
    public IReadOnlyList<ReceiverAssumption> LeakageNotes(IReadOnlyList<double> frequenciesHz)
    {
        List<ReceiverAssumption> notes = [];
        foreach (Filter filter in _sections.SelectMany(static s => s).OfType<Filter>().Where(static f => f.LeakageUnstated))
        {
            double greatest = frequenciesHz.Where(filter.Covers).Select(f => -Db(filter.At(f).S21)).DefaultIfEmpty(0).Max();
            if (greatest > LeakageDecidesFromDb)
            {
                notes.Add(new ReceiverAssumption.LeakageNotStated(filter.Name, greatest, LeakageDecidesFromDb));
            }
        }

        return [.. notes.Distinct()];
    }

    private double SectionDb(int section, double frequencyHz) =>
        _sections[section].Length == 0 ? 0 : Db(Section(section, frequencyHz).S21);

    private ScatteringMatrix Section(int section, double frequencyHz)
    {
        if (!_kept[section].TryGetValue(frequencyHz, out ScatteringMatrix s))
        {
            s = Cascade(_sections[section], frequencyHz);
            if (_kept[section].Count < MostKept)
            {
                _kept[section][frequencyHz] = s;
            }
        }

        return s;
    }

    private double SelectivityDb(double frequencyHz) => _selectivity is null ? 0 : Db(Through(_selectivity, frequencyHz).S21);

    private static ScatteringMatrix Cascade(ReadOnlySpan<IPassiveStage> stages, double frequencyHz)
    {
        ScatteringMatrix total = ScatteringMatrix.Through;
        foreach (IPassiveStage stage in stages)
        {
            // Two passive stages that both reflect everything at each other let nothing through.
            total = TwoPortAlgebra.Cascade(total, Through(stage, frequencyHz)) ?? Blocked;
        }

        return total;
    }

    private static ScatteringMatrix Blocked => new(Complex.One, Complex.Zero, Complex.Zero, Complex.One);

    private static ScatteringMatrix Through(IPassiveStage stage, double frequencyHz) =>
        stage.Covers(frequencyHz) ? stage.At(frequencyHz) : ScatteringMatrix.Through;

    // A blocked path has no level in dB; 400 dB down is under every floor and keeps the arithmetic finite.
    private static double Db(Complex transmission) => Math.Max(-400, 20 * Math.Log10(transmission.Magnitude));
}
