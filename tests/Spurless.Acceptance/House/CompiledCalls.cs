using System.Reflection;
using System.Reflection.Emit;

namespace Spurless.Acceptance.House;

/// <summary>A call as it stands in compiled code.</summary>
/// <param name="Caller">The type that the source shows: a lambda or an iterator counts as its surrounding type.</param>
/// <param name="From">The method that calls; of generated code its generated name.</param>
/// <param name="To">What is called, made, or handed over as a method.</param>
internal sealed record CompiledCall(Type Caller, MethodBase From, MethodBase To)
{
    /// <summary>What is called in words: <c>Namespace.Type.Method</c>.</summary>
    public string Target => $"{Plain(To.DeclaringType!)}.{(To.IsConstructor ? "new" : To.Name)}";

    private static string Plain(Type type) =>
        (type.IsGenericType ? type.GetGenericTypeDefinition() : type).FullName!.Split('`')[0].Replace('+', '.');
}

/// <summary>Reads the calls out of an assembly's compiled methods.</summary>
internal static class CompiledCalls
{
    private const BindingFlags All =
        BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Static | BindingFlags.Instance | BindingFlags.DeclaredOnly;

    private static readonly Dictionary<short, OpCode> Codes = typeof(OpCodes).GetFields(BindingFlags.Public | BindingFlags.Static)
        .Select(static f => (OpCode)f.GetValue(null)!).ToDictionary(static c => c.Value);

    /// <summary>All calls of an assembly, types and methods in no particular order.</summary>
    public static IEnumerable<CompiledCall> Of(Assembly assembly) =>
        from type in assembly.GetTypes()
        from method in type.GetMethods(All).Cast<MethodBase>().Concat(type.GetConstructors(All))
        from target in Targets(method)
        select new CompiledCall(Outermost(type), method, target);

    private static IEnumerable<MethodBase> Targets(MethodBase method)
    {
        if (method.GetMethodBody()?.GetILAsByteArray() is not { } code)
        {
            yield break;
        }

        Type[] ofType = method.DeclaringType!.GetGenericArguments(), ofMethod = method is MethodInfo ? method.GetGenericArguments() : [];
        for (int at = 0; at < code.Length;)
        {
            OpCode operation = code[at] == 0xFE ? Codes[(short)(0xFE00 | code[at + 1])] : Codes[code[at]];
            at += operation.Size;
            if (operation.OperandType is OperandType.InlineMethod)
            {
                yield return method.Module.ResolveMethod(BitConverter.ToInt32(code, at), ofType, ofMethod)!;
            }

            at += operation.OperandType switch
            {
                OperandType.InlineNone => 0,
                OperandType.ShortInlineBrTarget or OperandType.ShortInlineI or OperandType.ShortInlineVar => 1,
                OperandType.InlineVar => 2,
                OperandType.InlineI8 or OperandType.InlineR => 8,
                OperandType.InlineSwitch => 4 + (4 * BitConverter.ToInt32(code, at)),
                _ => 4,
            };
        }
    }

    private static Type Outermost(Type type)
    {
        while (type.DeclaringType is { } around)
        {
            type = around;
        }

        return type;
    }
}
