namespace Spurless.Radio.Quantities;

/// <summary>Reads levels written as dBm, dBW or as a voltage that says whether it is pd or emf.</summary>
internal static class LevelText
{
    /// <summary>20 lg of one volt across 50 ohm in dBm: 10 lg(1000 / 50) = 13.0103.</summary>
    internal static readonly double VoltAcross50OhmDbm = 10 * Math.Log10(1000.0 / 50.0);

    /// <summary>What an open-circuit voltage is above the one across a matched load: 20 lg 2 = 6.0206 dB.</summary>
    internal static readonly double EmfOverPdDb = 20 * Math.Log10(2);

    private static readonly (string Symbol, int Power)[] _volts = [("nV", -9), ("uV", -6), ("mV", -3), ("V", 0)];

    /// <summary>All ways of writing a voltage as a level; the bare ones are there to be asked about.</summary>
    internal static UnitSymbol[] Voltages { get; } =
    [
        .. _volts.Select(static v => new UnitSymbol(v.Symbol + " pd", v.Power)),
        .. _volts.Select(static v => new UnitSymbol(v.Symbol + " emf", v.Power)),
        new UnitSymbol("dBuV pd", 0),
        new UnitSymbol("dBuV emf", 0),
        .. _volts.Select(static v => new UnitSymbol(v.Symbol, v.Power)),
        new UnitSymbol("dBuV", 0),
    ];

    internal static bool TryRead(UnitTable units, string? text, out double dbm, out string problem)
    {
        dbm = 0;
        if (!units.TryMatch(text, out NumberText number, out UnitSymbol unit, out problem))
        {
            return false;
        }

        bool logarithmic = unit.Symbol.StartsWith("dB", StringComparison.Ordinal);
        bool emf = unit.Symbol.EndsWith(" emf", StringComparison.Ordinal);
        bool voltage = unit.Symbol.Contains('V', StringComparison.Ordinal);
        if (voltage && !emf && !unit.Symbol.EndsWith(" pd", StringComparison.Ordinal))
        {
            string written = UnitTable.Shown(UnitTable.Normalise(text ?? ""));
            problem = $"{UnitTable.Quoted(text)} does not say where the voltage stands; "
                + $"write {written} pd (across 50 ohm) or {written} emf (open circuit, 6.02 dB lower)";
            return false;
        }

        if (!number.TryToDouble(logarithmic ? 0 : unit.PowerOfTen, out double read))
        {
            problem = $"{UnitTable.Quoted(text)} is beyond what can be computed with; write {units.Kind} like {units.Example}";
            return false;
        }

        if (!logarithmic && read <= 0)
        {
            problem = $"{UnitTable.Quoted(text)} is not a voltage above 0; write {units.Kind} like {units.Example}";
            return false;
        }

        dbm = unit.Symbol switch
        {
            "dBm" => read,
            "dBW" => read + 30,
            _ => (logarithmic ? read - 120 : 20 * Math.Log10(read)) + VoltAcross50OhmDbm - (emf ? EmfOverPdDb : 0),
        };
        return units.IsSense(dbm, text, out problem);
    }
}
