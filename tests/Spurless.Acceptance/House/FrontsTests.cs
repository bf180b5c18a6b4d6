using System.Reflection;
using System.Runtime.CompilerServices;
using Spurless.Commands;
using Spurless.Sites.Stresses;

namespace Spurless.Acceptance.House;

/// <summary>
/// Commands parse, ask and write; pages bind, ask and draw: neither computes. Held over the compiled code, in which nothing hides behind an
/// alias, a global using or a lambda.
/// </summary>
public class FrontsTests
{
    private static readonly Assembly Program = typeof(CommandTree).Assembly;
    private static readonly CompiledCall[] Calls = [.. CompiledCalls.Of(Program)];

    /// <summary>The rooms that compute: floors 0 to 2. What they know of the world is asked for through the services of floor 3.</summary>
    private static readonly string[] Computing =
    [
        "Spurless.Numerics", "Spurless.Radio", "Spurless.Circuits", "Spurless.Fit", "Spurless.Design", "Spurless.Mixing",
            "Spurless.Signals",
        "Spurless.Register",
    ];

    /// <summary>What a front may call of them beside records and the reading of quantities, each with its reason.</summary>
    private static readonly string[] Allowed =
    [
        // Makes a value that is a choice between two.
        "Spurless.Circuits.Stress.StressLoad.Impedance",
        "Spurless.Circuits.Stress.StressLoad.Swr",
        "Spurless.Circuits.Parts.PartTolerance.Uniform",
        "Spurless.Radio.Quantities.Frequency.FromHertz",

        // The name that a sweep was read by.
        "Spurless.Fit.FitSweep.get_Name",

        // Question in, answer out by itself, of the one room below that is handed a path: a service of floor 3 would only pass it on.
        "Spurless.Register.Importing.RegisterImport.Run",

        // Prints a frequency.
        "Spurless.Radio.Quantities.MegahertzText.Of",

        // Tells whether a record that was read makes sense together.
        "Spurless.Radio.Terrain.TerrainConditions.Impossible",
    ];

    [Fact]
    public void Commands_and_pages_call_nothing_that_computes()
    {
        string[] found = [.. Calls
            .Where(static c => IsFront(c.Caller) && Computing.Contains(c.To.DeclaringType?.Assembly.GetName().Name) && !IsAllowed(c))
            .Select(static c => $"{c.Caller.FullName}: {c.Target}").Distinct().Order(StringComparer.Ordinal)];
        Nothing(found);
    }

    [Fact]
    public void The_rule_sees_what_computes()
    {
        // The scan itself: it finds calls in plain methods, lambdas and asynchronous ones, and tells a record from what computes.
        Assert.True(Calls.Count(static c =>
            c.Caller == typeof(StudyCommand) && c.Target.StartsWith("Spurless.Sites.", StringComparison.Ordinal)) > 5);
        Assert.Contains(Calls, static c => c.Caller == typeof(MixCommand) && c.Target == "Spurless.Sites.Mixes.MixService.Ask");
        Assert.Contains(Calls, static c => c.Caller == typeof(StressCommand) && c.Target == "Spurless.Sites.Stresses.StressService.Ask");
        Assert.Contains(
            CompiledCalls.Of(typeof(StressService).Assembly),
            static c => c.Caller == typeof(StressService) && c.Target == "Spurless.Circuits.Stress.StressAnalysis.TryRun" && !IsAllowed(c));
        Assert.False(IsData(typeof(Circuits.Solving.CircuitSolver)));
        Assert.False(IsData(typeof(Circuits.Stress.StressAnalysis)));
        Assert.True(IsData(typeof(Circuits.Stress.StressLoad)));
        Assert.True(IsData(typeof(Radio.Quantities.Frequency)));
    }

    /// <summary>
    /// A front that blocks on a task can stand still for ever; the generated code of 'await' is the only one that asks for a result.
    /// </summary>
    [Fact]
    public void Commands_and_pages_block_on_no_task()
    {
        string[] found = [.. Calls
            .Where(static c => IsFront(c.Caller) && Blocks(c))
            .Select(static c => $"{c.Caller.FullName}.{c.From.Name}: {c.Target}").Distinct().Order(StringComparer.Ordinal)];
        Nothing(found);
    }

    [Fact]
    public void The_version_is_read_in_one_place()
    {
        string[] found = [.. Calls.Where(static c => c.Target is "System.Reflection.AssemblyName.get_Version")
            .Select(static c => c.Caller.FullName!).Distinct()];
        Assert.Equal(["Spurless.ProgramVersion"], found);
    }

    /// <summary>Pages know no command line: what is wrong with a question is a value there, not a usage error.</summary>
    [Fact]
    public void Pages_call_no_command()
    {
        string[] found = [.. Calls
            .Where(static c => Within(c.Caller, "Spurless.Pages")
                && c.To.DeclaringType is { } type && (Within(type, "Spurless.Commands") || Within(type, "Spurless.CommandLine")))
            .Select(static c => $"{c.Caller.FullName}: {c.Target}").Distinct().Order(StringComparer.Ordinal)];
        Nothing(found);
    }

    private static void Nothing(IEnumerable<string> found) => Assert.True(!found.Any(), string.Join('\n', found));

    private static bool IsFront(Type type) =>
        Within(type, "Spurless.Commands") || Within(type, "Spurless.CommandLine") || Within(type, "Spurless.Pages");

    private static bool Within(Type type, string name) =>
        type.Assembly == Program && type.Namespace is { } own && (own == name || own.StartsWith(name + ".", StringComparison.Ordinal));

    private static bool IsAllowed(CompiledCall call)
    {
        Type type = call.To.DeclaringType!;
        bool reads = call.To.Name.StartsWith("TryParse", StringComparison.Ordinal) || call.To.Name == "Parse";
        bool data = IsData(type) && (call.To.IsSpecialName || call.To.Name is "ToString" or "Equals" or "<Clone>$" or "CompareTo");
        return reads || data || type.IsInterface || type.IsSubclassOf(typeof(Delegate)) || Allowed.Contains(call.Target);
    }

    /// <summary>Data are records, by their generated members, and enumerations: to make, read and change them is no computation.</summary>
    private static bool IsData(Type type)
    {
        const BindingFlags Own = BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Instance | BindingFlags.DeclaredOnly;
        return type.IsEnum || type.GetMethod("<Clone>$", Own) is not null
            || (type.IsValueType
                && type.GetMethods(Own).Any(static m => m.Name == "PrintMembers" && m.IsDefined(typeof(CompilerGeneratedAttribute))))
            || (type.IsValueType && typeof(IEquatable<>).MakeGenericType(type).IsAssignableFrom(type));
    }

    private static bool Blocks(CompiledCall call)
    {
        Type type = call.To.DeclaringType!;
        bool generated = call.From.Name == "MoveNext" && typeof(IAsyncStateMachine).IsAssignableFrom(call.From.DeclaringType);
        return (typeof(Task).IsAssignableFrom(type)
            && call.To.Name is "Wait" or "WaitAll" or "WaitAny" or "get_Result" or "RunSynchronously")
            || (!generated && call.To.Name == "GetResult" && type.Namespace == "System.Runtime.CompilerServices");
    }
}
