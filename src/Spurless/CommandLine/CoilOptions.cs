using Spurless.Circuits.Coils;
using Spurless.Sites.Coils;

namespace Spurless.CommandLine;

/// <summary>The values of the options of <c>coil</c>: four questions share them.</summary>
internal sealed record CoilOptions
{
    public double? Turns { get; init; }

    public double? InductanceH { get; init; }

    public double? DiameterM { get; init; }

    public double? FormerM { get; init; }

    public double? LengthM { get; init; }

    public double? WireM { get; init; }

    public double? LeadM { get; init; }

    public double? FrequencyHz { get; init; }

    public required Conductor Metal { get; init; }

    public double? CoreH { get; init; }

    public double? HelicalM { get; init; }

    public ShieldShape Shield { get; init; }

    public LengthPair? Coaxial { get; init; }

    public double? EndF { get; init; }

    /// <summary>The question that they ask.</summary>
    /// <exception cref="UsageException">Options are missing or contradict each other.</exception>
    public CoilQuestion Question()
    {
        bool[] kinds = [CoreH is not null, HelicalM is not null, Coaxial is not null];
        if (kinds.Count(static k => k) > 1)
        {
            throw new UsageException("--core, --helical and --coaxial are different things; write one of them");
        }

        return CoreH is { } core ? RingCore(core) : HelicalM is { } size ? Helical(size) : Coaxial is { } pair ? Line(pair) : AirCoil();
    }

    private AirCoilQuestion AirCoil()
    {
        List<string> wrong = [];
        OneOf(wrong, Turns is null, InductanceH is null, "--turns or --inductance");
        OneOf(wrong, DiameterM is null, FormerM is null, "--diameter or --former");
        Needs(wrong, LengthM is null, "--length");
        Needs(wrong, WireM is null, "--wire");
        Useless(wrong, EndF is not null, "--end", "--coaxial");
        Refuse(wrong);
        return new AirCoilQuestion
        {
            Turns = Turns,
            InductanceH = InductanceH,
            DiameterM = DiameterM,
            FormerM = FormerM,
            LengthM = LengthM!.Value,
            WireM = WireM!.Value,
            LeadM = LeadM ?? 0,
            FrequencyHz = FrequencyHz,
            Metal = Metal,
        };
    }

    private RingCoreQuestion RingCore(double core)
    {
        List<string> wrong = [];
        OneOf(wrong, Turns is null, InductanceH is null, "--turns or --inductance");
        NoDimensions(wrong, "--core");
        Useless(wrong, EndF is not null, "--end", "--coaxial");
        Refuse(wrong);
        return new RingCoreQuestion { InductancePerTurnSquaredH = core, Turns = Turns, InductanceH = InductanceH };
    }

    private HelicalQuestion Helical(double size)
    {
        List<string> wrong = [];
        Needs(wrong, FrequencyHz is null, "--at");
        NoTurns(wrong, "--helical");
        Useless(wrong, EndF is not null, "--end", "--coaxial");
        Refuse(wrong);
        return new HelicalQuestion { FrequencyHz = FrequencyHz!.Value, ShieldM = size, Shape = Shield };
    }

    private CoaxialQuestion Line(LengthPair pair)
    {
        List<string> wrong = [];
        Needs(wrong, FrequencyHz is null, "--at");
        NoTurns(wrong, "--coaxial");
        Refuse(wrong);
        return new CoaxialQuestion
        {
            FrequencyHz = FrequencyHz!.Value,
            InnerM = pair.InnerM,
            OuterM = pair.OuterM,
            EndF = EndF ?? 0,
            Metal = Metal,
        };
    }

    private void NoTurns(List<string> wrong, string kind)
    {
        if (Turns is not null || InductanceH is not null)
        {
            wrong.Add($"{kind} gives the dimensions by the frequency; leave --turns and --inductance out");
        }

        NoDimensions(wrong, kind);
    }

    private void NoDimensions(List<string> wrong, string kind)
    {
        if (DiameterM is not null || FormerM is not null || LengthM is not null || WireM is not null || LeadM is not null)
        {
            wrong.Add($"{kind} takes no dimensions of an air coil; leave --diameter, --former, --length, --wire and --leads out");
        }
    }

    private static void OneOf(List<string> wrong, bool firstMissing, bool secondMissing, string both)
    {
        if (firstMissing == secondMissing)
        {
            wrong.Add(firstMissing ? $"{both} is missing; write one of them"
                : $"{both} are two ways of saying one thing; write one of them");
        }
    }

    private static void Needs(List<string> wrong, bool missing, string option)
    {
        if (missing)
        {
            wrong.Add($"{option} is missing; 'spurless coil --help' shows an example");
        }
    }

    private static void Useless(List<string> wrong, bool given, string option, string with)
    {
        if (given)
        {
            wrong.Add($"{option} belongs to {with}; write that too, or leave it out");
        }
    }

    private static void Refuse(List<string> wrong)
    {
        if (wrong.Count > 0)
        {
            throw new UsageException(wrong);
        }
    }
}
