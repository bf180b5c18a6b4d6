using System.Reflection;
using System.Reflection.Emit;

namespace Spurless.Acceptance.House;

/// <summary>A text that stands in compiled code.</summary>
/// <param name="Holder">The type that the source shows: a lambda or an iterator counts as its surrounding type.</param>
/// <param name="Text">The text; of an interpolated one a piece between two holes.</param>
internal sealed record CompiledText(Type Holder, string Text)
{
    private static readonly Dictionary<short, OpCode> Codes = typeof(OpCodes).GetFields(BindingFlags.Public | BindingFlags.Static)
        .Select(static f => (OpCode)f.GetValue(null)!).ToDictionary(static c => c.Value);

    /// <summary>All texts of an assembly but those of the exceptions that it throws for bugs.</summary>
    public static IEnumerable<CompiledText> Of(Assembly assembly)
    {
        const BindingFlags all =
            BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Static | BindingFlags.Instance | BindingFlags.DeclaredOnly;
        return from type in assembly.GetTypes()
               from method in type.GetMethods(all).Cast<MethodBase>().Concat(type.GetConstructors(all))
               from text in Texts(method)
               select new CompiledText(Outermost(type), text);
    }

    private static IEnumerable<string> Texts(MethodBase method)
    {
        if (method.GetMethodBody()?.GetILAsByteArray() is not { } code)
        {
            yield break;
        }

        Type[] ofType = method.DeclaringType!.GetGenericArguments(), ofMethod = method is MethodInfo ? method.GetGenericArguments() : [];
        List<string> waiting = [];
        for (int at = 0; at < code.Length;)
        {
            OpCode operation = code[at] == 0xFE ? Codes[(short)(0xFE00 | code[at + 1])] : Codes[code[at]];
            at += operation.Size;
            if (operation.OperandType is OperandType.InlineString)
            {
                waiting.Add(method.Module.ResolveString(BitConverter.ToInt32(code, at)));
            }
            else if (operation.OperandType is OperandType.InlineMethod)
            {
                // The next call takes what was put on the stack; an exception's constructor takes it for whoever wrote the program.
                MethodBase to = method.Module.ResolveMethod(BitConverter.ToInt32(code, at), ofType, ofMethod)!;
                if (!to.IsConstructor || !typeof(Exception).IsAssignableFrom(to.DeclaringType))
                {
                    foreach (string text in waiting)
                    {
                        yield return text;
                    }
                }

                waiting.Clear();
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

        foreach (string text in waiting)
        {
            yield return text;
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
