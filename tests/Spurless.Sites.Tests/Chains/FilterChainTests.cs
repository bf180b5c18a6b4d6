using System.Globalization;
using System.Numerics;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Chains;

/// <summary>
/// Filters in line, from a site file with circuit files and a sweep beside it, against chain (ABCD) matrices multiplied out by hand: two
/// mismatched circuits side by side do not lose the sum of what each loses alone.
/// </summary>
public sealed class FilterChainTests
{
    private static readonly double[] Hertz = [94.2e6, 145.05e6, 158.3e6, 171.55e6, 466.1e6];

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 25)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Study_carriers_arrive_through_the_cascade_of_the_files(int seed)
    {
        Line line = new(seed);
        ReceiverFindings found = line.Study();
        foreach ((CarrierFinding carrier, double hz) in found.Carriers.Zip(Hertz))
        {
            double expected = -30 + Db(S21(line.Chain(hz))) + line.GainDb + Db(line.Sweep(hz));
            Assert.Equal(expected, carrier.LevelAtReceiverDbm!.Value, 1e-4);

            // Without its filters only cable, pad and amplifier are left.
            double bare = -30 - line.FeedlineDb(hz) - line.PadDb + line.GainDb;
            Assert.Equal(bare - expected, carrier.Rejection!.NominalDb, 1e-4);
        }
    }

    /// <summary>
    /// The band over all phases of the two mismatches, by trying a degree and a half at a time on both: no phase gives more or less than
    /// what is told, and what is told is reached to what so coarse steps can miss.
    /// </summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    public void Rejection_holds_every_phase_of_the_mismatches(int seed)
    {
        Line line = new(seed) { Amplified = false };
        ReceiverFindings found = line.Study();
        foreach ((CarrierFinding carrier, double hz) in found.Carriers.Zip(Hertz))
        {
            (Complex s11, Complex s21, Complex s12, Complex s22) = Scattering(line.Whole(hz));
            double least = double.PositiveInfinity;
            double greatest = double.NegativeInfinity;
            for (int i = 0; i < 240; i++)
            {
                Complex antenna = Complex.FromPolarCoordinates(0.4, i * Math.PI / 120);
                for (int j = 0; j < 240; j++)
                {
                    Complex load = Complex.FromPolarCoordinates(0.6, j * Math.PI / 120);
                    double change = -Db(((1 - (s11 * antenna)) * (1 - (s22 * load))) - (s12 * s21 * antenna * load));
                    (least, greatest) = (Math.Min(least, change), Math.Max(greatest, change));
                }
            }

            double low = carrier.Rejection!.NominalDb - greatest;
            double high = carrier.Rejection.NominalDb - least;
            Assert.InRange(low, carrier.Rejection.LowDb!.Value - 1e-6, carrier.Rejection.LowDb.Value + 0.02);
            Assert.InRange(high, carrier.Rejection.HighDb!.Value - 0.02, carrier.Rejection.HighDb.Value + 1e-6);
        }
    }

    /// <summary>Noise: what the filters lose on the channel costs the sensitivity by as much where no external noise comes in.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void Filters_cost_on_the_channel_what_they_lose_there(int seed)
    {
        Line line = new(seed) { Amplified = false };
        ReceiverFindings found = line.Study();
        double lost = -line.FeedlineDb(145.05e6) - line.PadDb - Db(S21(line.Whole(145.05e6)));
        Assert.Equal(lost, found.WantedLossDb!.Value, 1e-4);
        Assert.Equal(found.WithoutFilter!.NoiseFloorDbm, found.NoiseFloorDbm, 1e-9); // all at 290 K
        Assert.Equal(found.WithoutFilter.SensitivityAtAntennaDbm + lost, found.SensitivityAtAntennaDbm, 1e-4);
    }

    /// <summary>Two circuits of two files are one circuit drawn in one file.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void A_circuit_file_drawn_as_one_is_the_two_that_it_is_made_of(int seed)
    {
        Line line = new(seed);
        Line one = new(seed) { Drawn = true };
        foreach ((CarrierFinding a, CarrierFinding b) in line.Study().Carriers.Zip(one.Study().Carriers))
        {
            Assert.Equal(a.LevelAtReceiverDbm!.Value, b.LevelAtReceiverDbm!.Value, 1e-6);
        }
    }

    private static double Db(Complex x) => 20 * Math.Log10(x.Magnitude);

    private static Complex S21(Complex[] chain) => Scattering(chain).S21;

    private static (Complex S11, Complex S21, Complex S12, Complex S22) Scattering(Complex[] chain)
    {
        (Complex a, Complex b, Complex c, Complex d) = (chain[0], chain[1] / 50, chain[2] * 50, chain[3]);
        Complex sum = a + b + c + d;
        return ((a + b - c - d) / sum, 2 / sum, 2 * ((a * d) - (b * c)) / sum, (-a + b - c + d) / sum);
    }

    /// <summary>A receive line by chance: cable, a coupled tank, a low-pass, a pad; behind an amplifier a measured two-port.</summary>
    private sealed class Line(int seed)
    {
        private readonly double _feedline = 0.3 + (new Random(seed).NextDouble() * 3);
        private readonly double _coupling = 1 + (new Random(seed + 100).NextDouble() * 8);
        private readonly double _tank = 20 + (new Random(seed + 200).NextDouble() * 40);
        private readonly double _coil = 30 + (new Random(seed + 300).NextDouble() * 50);
        private readonly double _shunt = 5 + (new Random(seed + 400).NextDouble() * 30);

        public bool Amplified { get; init; } = true;

        /// <summary>Whether both circuits stand in one file.</summary>
        public bool Drawn { get; init; }

        public double PadDb => 1 + (seed % 4);

        public double GainDb => Amplified ? 15 : 0;

        public double FeedlineDb(double hz) => _feedline * Math.Sqrt(hz / 145e6);

        /// <summary>What the sweep behind the amplifier lets through: its points are the carriers themselves.</summary>
        public Complex Sweep(double hz) => Amplified ? Complex.FromPolarCoordinates(0.3 + (0.1 * Array.IndexOf(Hertz, hz)), 1.1) : 1;

        /// <summary>The chain matrix ahead of the amplifier.</summary>
        public Complex[] Chain(double hz) => Times(
            Times(Matched(FeedlineDb(hz)), Filters(hz)), Matched(PadDb));

        /// <summary>The chain matrix of a line without an amplifier.</summary>
        public Complex[] Whole(double hz) => Chain(hz);

        private Complex[] Filters(double hz)
        {
            Complex w = new(0, 2 * Math.PI * hz);
            Complex coupling = 1 / (w * _coupling * 1e-12);
            Complex tank = (w * _tank * 1e-12) + (1 / (w * 30e-9)) + (1 / 900.0);
            Complex coil = w * _coil * 1e-9;
            Complex[] first = Times(Series(coupling), Times(Shunt(tank), Series(coupling)));
            return Times(first, Times(Series(coil), Shunt(w * _shunt * 1e-12)));
        }

        public ReceiverFindings Study()
        {
            string tank = Inv($"C1: {{ capacitor: {_coupling} pF, between: [a, b] }}\n")
                + Inv($"  C2: {{ capacitor: {_tank} pF, between: [b, gnd] }}\n")
                + Inv($"  L1: {{ inductor: 30 nH, between: [b, gnd] }}\n  R1: {{ resistor: 900 ohm, between: [b, gnd] }}\n")
                + Inv($"  C3: {{ capacitor: {_coupling} pF, between: [b, c] }}\n");
            string low = Inv($"L2: {{ inductor: {_coil} nH, between: [c, d] }}\n  C4: {{ capacitor: {_shunt} pF, between: [d, gnd] }}\n");
            string Circuit(string ports, string parts) =>
                $"spurless_circuit: 1\nname: made for a test\nports: {{ {ports}, impedance: 50 ohm }}\nparts:\n  {parts}";
            string sweep = "# Hz S RI R 50\n" + string.Concat(Hertz.Select(f =>
                Inv($"{f:0} 0 0 {Sweep(f).Real:R} {Sweep(f).Imaginary:R} {Sweep(f).Real:R} {Sweep(f).Imaginary:R} 0 0\n")));
            string filters = Drawn ? "{ circuit: both.circuit.yaml }" : "{ circuit: tank.circuit.yaml }, { circuit: low.circuit.yaml }";
            string behind = Amplified
                ? ", { amplifier: { gain: 15 dB, noise_figure: 2 dB, iip3: 0 dBm } }, { two_port: behind.s2p }" : "";
            string text = "spurless: 1\nsite: made for a test\nreceivers:\n  - { name: r, frequency: 145.05 MHz, channel: 12.5 kHz, "
                + "noise_figure: 6 dB, iip3: -8 dBm, mismatch: 0.6, antenna: { mismatch: 0.4 },\n      chain: [ "
                + Inv($"{{ feedline: {{ loss: {_feedline} dB at 145 MHz }} }}, {filters}, {{ attenuator: {PadDb} dB }}{behind} ] }}\n")
                + "emitters:\n" + string.Concat(Hertz.Select(static (f, i) =>
                    Inv($"  - {{ name: e{i}, frequency: {f:0} Hz, bandwidth: 0 kHz, level: -30 dBm }}\n")));
            StubFiles files = new(
                ("tank.circuit.yaml", Circuit("in: a, out: c", tank)), ("low.circuit.yaml", Circuit("in: c, out: d", low)),
                ("both.circuit.yaml", Circuit("in: a, out: d", tank + "  " + low)), ("behind.s2p", sweep));
            LoadedSite? site = SiteLoader.Load(text, "line.site.yaml", files, out IReadOnlyList<Diagnostic> findings);
            Assert.Equal("", string.Join('\n', findings));
            return Assert.Single(StudyService.Run(site!, new StudyOptions()).Receivers);
        }

        private static Complex[] Series(Complex impedance) => [1, impedance, 0, 1];

        private static Complex[] Shunt(Complex admittance) => [1, 0, admittance, 1];

        // A matched loss: cosh and sinh of its nepers in 50 ohm.
        private static Complex[] Matched(double lossDb)
        {
            double nepers = lossDb * Math.Log(10) / 20;
            return [Math.Cosh(nepers), 50 * Math.Sinh(nepers), Math.Sinh(nepers) / 50, Math.Cosh(nepers)];
        }

        private static Complex[] Times(Complex[] x, Complex[] y) =>
        [
            (x[0] * y[0]) + (x[1] * y[2]), (x[0] * y[1]) + (x[1] * y[3]), (x[2] * y[0]) + (x[3] * y[2]), (x[2] * y[1]) + (x[3] * y[3]),
        ];
    }

    private static string Inv(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
