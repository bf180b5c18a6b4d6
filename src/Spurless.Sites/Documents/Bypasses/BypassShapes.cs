using Spurless.Circuits.Relays;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Radio.Quantities;
using Spurless.Sites.Documents.Circuits;

namespace Spurless.Sites.Documents.Bypasses;

/// <summary>The file of a bypass relay: the words in which it is both read and described.</summary>
internal static class BypassShapes
{
    private const int MostStages = 4;

    private static readonly Shape<double> _capacitance = Within(ValueKind.Capacitance.Known, 1e-15, 1, "1 fF to 1 F");

    private static readonly Shape<double> _resistance = Within(ValueKind.Resistance.Known, 1e-4, 1e9, "0.1 mohm to 1 Gohm");

    private static readonly Shape<double> _volts = Within(
        Shapes.Value<Voltage>("a voltage such as 12 V", Voltage.TryParse).Select(static v => v.Volts), 1e-3, 1000, "1 mV to 1 kV");

    private static readonly Shape<double> _smallVolts = Within(
        Shapes.Value<Voltage>("a voltage such as 0.2 V", Voltage.TryParse).Select(static v => v.Volts), 0, 100, "0 V to 100 V");

    private static readonly Shape<double> _saturationCurrent = Within(
        Shapes.Value<Current>("a current such as 20 nA", Current.TryParseReverse).Select(static c => c.Amperes),
        1e-15, 1e-3, "0.001 pA to 1 mA");

    private static readonly Shape<double> _time = Within(
        Shapes.Value<Duration>("a time such as 3 ms", Duration.TryParse).Select(static d => d.Seconds), 0, 10, "0 ms to 10 s");

    private static readonly Shape<double> _power = Within(
        QuantityShapes.Power.Select(static p => p.Watts), 1e-6, 1e5, "1 uW to 100 kW");

    private static readonly Shape<Frequency> _frequency = QuantityShapes.Frequency.Check(static f =>
        f.Hertz is >= 10_000 and <= 10_000_000_000 ? null : new Refusal($"'{f}' is out of range", "write 10 kHz to 10 GHz"));

    private static readonly Shape<Diode> _diode = Shapes.Mapping(
        "{ saturation_current: 20 nA, emission: 1.05, series: 5 ohm, junction: 0.8 pF }", static m => new Diode(
            Read(m.Required("saturation_current", _saturationCurrent, "current in reverse"), 1e-9),
            Read(m.Required("emission", Shapes.Number("an emission coefficient from 0.5 to 5, as in 1.05", 0.5, 5), "a plain number"), 1),
            Read(m.Required("series", _resistance, "resistance in series"), 1),
            m.Required("junction", _capacitance, "capacitance of the junction")));

    private static readonly Shape<DriverStage> _stage = Shapes.Mapping(
        "{ base_resistor: 10 kohm, gain: 100, vbe: 0.65 V }", static m => new DriverStage(
            m.Required("base_resistor", _resistance, "in front of the base"),
            m.Required("gain", Shapes.Number("a current gain from 1 to 100000, as in 100", 1, 100_000), "collector over base current"),
            m.Required("vbe", _volts, "from base to emitter while it conducts")));

    private static readonly Shape<Tap> _tap = Shapes.Mapping(
        "{ capacitor: 2.2 pF }", static m => new Tap(m.Required("capacitor", _capacitance, "from the line to the detector")));

    private static readonly Shape<Sensing> _detector = Shapes.Mapping(
        "{ rectifier: doubler, diode: …, smoothing: 10 nF, bleed: 100 kohm }", static m => new Sensing(
            m.Required(
                "rectifier", Shapes.Words(("single", Rectifier.Single), ("doubler", Rectifier.Doubler)), "how it is rectified"),
            m.Required("diode", _diode, "the diode, or each of the two"),
            m.Required("smoothing", _capacitance, "the capacitor that holds"),
            m.Required("bleed", _resistance, "the resistor across it")));

    private static readonly Shape<Driver> _driver = Shapes.Mapping(
        "{ supply: 12 V, saturation: 0.2 V, stages: […] }", static m => new Driver(
            m.Required("supply", _volts, "the supply"),
            m.Required("saturation", _smallVolts, "left across a stage that is fully on"),
            m.Required("stages", Shapes.ListOf(_stage, 1, MostStages), "transistors from the detector on, the last one carries the coil")
                ?? []));

    private static readonly Shape<Contact> _contact = Shapes.Mapping("{ loss: 0.1 dB, open: 0.8 pF }", static m => new Contact(
        m.Required("loss", QuantityShapes.NotNegativeDecibels, "of the closed contacts").Value,
        m.Required("open", _capacitance, "capacitance of the open contacts")));

    private static readonly Shape<Relay> _relay = Shapes.Mapping(
        "{ coil: 320 ohm, inductance: 0.4 H, operates_at: 8.4 V, … }", static m => new Relay(
            new RelayCoil(
                m.Required("coil", _resistance, "resistance of the coil at 20 degrees"),
                m.Required("inductance", ValueKind.Inductance.Known, "inductance of the coil"),
                m.Required("operates_at", _volts, "voltage at which it pulls"),
                m.Required("releases_at", _volts, "voltage under which it lets go"),
                m.Required("travel", _time, "until the contacts are over"),
                m.Required("release_travel", _time, "until the contacts are back"),
                m.Or("clamp", _smallVolts, 0.7, "voltage of the diode, or what else catches the coil; 0.7 V where not written")),
            m.Required("contact", _contact, "the contacts")));

    private static readonly Shape<Transmitter> _transmitter = Shapes.Mapping("{ power: 50 W, swr: 2 }", static m => new Transmitter(
        m.Required("power", _power, "of the transmitter"),
        m.Maybe("swr", Shapes.Number("a standing wave ratio from 1 to 100, as in 2", 1, 100), "on the line; matched where not written")));

    public static Shape<BypassDocument> Bypass { get; } = Shapes.Mapping(
        "keys such as name, frequency, tap, detector, driver, relay, transmitter", static m =>
    {
        m.Required("spurless_bypass", Shapes.Integer("1, the version of the format", 1, 1), "version of the format");
        string name = m.Required("name", QuantityShapes.NameOf("a name of your choice"), "what it is") ?? "";
        double impedance = m.Or("impedance", Within(ValueKind.Resistance.Known, 1, 10_000, "1 ohm to 10 kohm"), 50, "of the line");
        Frequency frequency = m.Required("frequency", _frequency, "transmitted on");
        Tap? tap = m.Required("tap", _tap, "what takes the radio frequency from the line");
        Sensing? detector = m.Required("detector", _detector, "rectifier and smoothing");
        Driver? driver = m.Required("driver", _driver, "what carries the coil");
        Relay? relay = m.Required("relay", _relay, "coil and contacts");
        FileReference? filter = m.Optional("filter", QuantityShapes.File("the file of a circuit or of a two-port sweep"), "the filter");
        FileReference? site = m.Optional("site", QuantityShapes.File("a site file's name"), "whose signals come down the line");
        Transmitter? transmitter = m.Required("transmitter", _transmitter, "what is sent");
        return tap is null || detector?.Diode is null || driver is null || relay?.Coil is null || relay.Contact is null
            || transmitter is null
            ? null!
            : new BypassDocument
            {
                File = m.Node?.File ?? "",
                Name = name,
                ImpedanceOhm = impedance,
                Frequency = frequency,
                Circuit = Circuit(frequency, tap, detector, driver, relay.Coil),
                ContactLossDb = relay.Contact.LossDb,
                ContactOpenF = relay.Contact.OpenF,
                Filter = filter,
                Site = site,
                PowerW = transmitter.PowerW,
                StandingWaveRatio = transmitter.Swr,
                Source = EntrySource.Of(m.Node),
            };
    });

    private static RelayCircuit Circuit(Frequency frequency, Tap tap, Sensing detector, Driver driver, RelayCoil coil) => new()
    {
        Detector = new RelayDetector
        {
            FrequencyHz = frequency.Hertz,
            TapF = tap.CapacitorF,
            Rectifier = detector.Rectifier,
            Diode = detector.Diode,
        },
        SmoothingF = detector.SmoothingF,
        BleedOhm = detector.BleedOhm,
        SupplyV = driver.SupplyV,
        SaturationV = driver.SaturationV,
        Stages = [.. driver.Stages.OfType<DriverStage>()],
        Coil = coil,
    };

    private static Shape<double> Within(Shape<double> shape, double least, double most, string range) => shape.Check(
        v => v >= least && v <= most ? null : new Refusal("no part is of this size", $"write {range}"));

    // A field that was refused is reported; the diode's curve is made of it all the same, and must not fall over it.
    private static double Read(double value, double otherwise) => value > 0 ? value : otherwise;

    private sealed record Tap(double CapacitorF);

    private sealed record Sensing(Rectifier Rectifier, Diode Diode, double SmoothingF, double BleedOhm);

    private sealed record Driver(double SupplyV, double SaturationV, IReadOnlyList<DriverStage> Stages);

    private sealed record Contact(double LossDb, double OpenF);

    private sealed record Relay(RelayCoil Coil, Contact Contact);

    private sealed record Transmitter(double PowerW, double? Swr);
}
