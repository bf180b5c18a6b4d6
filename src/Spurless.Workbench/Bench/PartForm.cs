namespace Spurless.Workbench.Bench;

/// <summary>A key of a part as one types it.</summary>
/// <param name="Path">The key, an inner one behind a dot: <c>coil.turns</c>.</param>
/// <param name="Words">What it is called.</param>
/// <param name="Example">What is typed, as an example.</param>
/// <param name="IsList">Whether the file holds a list there, which is typed with commas and without brackets.</param>
public sealed record PartKey(string Path, string Words, string Example, bool IsList = false);

/// <summary>A kind of part: which keys make one, and which it may have besides.</summary>
/// <param name="Key">The key that says what the part is.</param>
/// <param name="Words">What it is called.</param>
/// <param name="Letter">What the names of such parts begin with.</param>
/// <param name="Needed">What has to be typed, besides the nodes.</param>
/// <param name="Further">What may be.</param>
public sealed record PartForm(string Key, string Words, string Letter, IReadOnlyList<PartKey> Needed, IReadOnlyList<PartKey> Further)
{
    private static readonly PartKey _q = new("q", "Q", "400 at 145 MHz");
    private static readonly PartKey _tolerance = new("tolerance", "tolerance", "5 %");

    private static readonly PartKey[] _all =
    [
        _tolerance, new("about", "known to, one sigma", "10 %"), new("rated", "rated", "50 V, 1 W", IsList: true), new("ppm",
            "ppm per kelvin", "30"),
    ];

    private static readonly PartKey _esr = new("esr", "series resistance", "0.1 ohm");
    private static readonly PartKey _across = new("self_capacitance", "capacitance across it", "0.4 pF");
    private static readonly PartKey _second = new("and", "second winding", "c, gnd", IsList: true);

    private static readonly PartKey[] _line =
    [
        new("line.impedance", "impedance", "50 ohm"), new("line.length", "length", "0.34 m"), new("line.velocity", "velocity", "0.66"),
    ];

    private static readonly PartKey _lineLoss = new("line.loss", "loss", "0.1 dB/m at 146 MHz");

    private static readonly PartKey[] _coil =
    [
        new("coil.turns", "turns", "2"), new("coil.diameter", "diameter", "7 mm"), new("coil.length", "length", "4 mm"), new("coil.wire",
            "wire", "1 mm"),
    ];

    /// <summary>All kinds.</summary>
    public static IReadOnlyList<PartForm> All { get; } =
    [
        new("capacitor", "capacitor", "C", [new("capacitor", "capacitance", "6.8 pF")], [_q, .. _all, Range("0.5 pF, 47 pF"), _esr,
            new("esl", "series inductance", "0.6 nH")]),
        new("inductor", "inductor", "L", [new("inductor", "inductance", "27.6 nH")], [_q, .. _all, Range("10 nH, 100 nH"), _esr, _across]),
        new("resistor", "resistor", "R", [new("resistor", "resistance", "10 ohm")], [.. _all, Range("1 ohm, 1 kohm")]),
        new("coil", "coil by its winding", "L", _coil, [_q, .. _all, new("coil.leads", "leads", "2 mm"), _esr, _across]),
        new("coupling", "coupling of two coils", "M", [new("coupling", "coefficient", "0.02"), new("of", "coils", "L1, L2",
            IsList: true)], [.. _all, Range("0.005, 0.1")]),
        new("line", "line", "W", _line, [_lineLoss, .. _all, Range("0.2 m, 0.6 m"), new("end", "end, where it is a stub", "open")]),
        new("transformer", "transformer", "X", [new("transformer.turns", "turns", "1, 4", IsList: true), _second], [.. _all]),
        new("two_port", "measured two-port", "N", [new("two_port", "sweep", "measured.s2p")], [.. _all]),
    ];

    /// <summary>Whether it stands between two nodes.</summary>
    public bool HasNodes => Key != "coupling";

    /// <summary>All keys.</summary>
    public IEnumerable<PartKey> Keys => Needed.Concat(Further);

    private static PartKey Range(string example) => new("range", "range, where it is unknown", example, IsList: true);
}
