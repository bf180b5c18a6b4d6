using System.Reflection;
using System.Reflection.Emit;

namespace Spurless.Acceptance.House;

/// <summary>
/// What the compiled types of an assembly know of each other: base types, members' signatures, locals, and every type and member their code
/// names.
/// </summary>
internal static class TypeReferences
{
    private const BindingFlags All =
        BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;

    private static readonly OpCode?[] OneByte = new OpCode?[256];
    private static readonly OpCode?[] TwoBytes = new OpCode?[256];

    static TypeReferences()
    {
        foreach (OpCode code in typeof(OpCodes).GetFields().Select(static f => f.GetValue(null)).OfType<OpCode>())
        {
            (code.Size == 1 ? OneByte : TwoBytes)[code.Value & 0xFF] = code;
        }
    }

    /// <summary>Each type with each type of the same assembly that it knows; nested types count as their outermost one.</summary>
    public static IReadOnlySet<(Type From, Type To)> Of(Assembly assembly)
    {
        HashSet<(Type, Type)> found = [];
        foreach (Type type in assembly.GetTypes())
        {
            Type from = Outermost(type);
            foreach (Type known in Known(type).SelectMany(Parts).Where(t => t.Assembly == assembly).Select(Outermost).Where(t => t != from))
            {
                found.Add((from, known));
            }
        }

        return found;
    }

    /// <summary>The types that a member's code names, each as it stands there.</summary>
    public static IEnumerable<MemberInfo> Named(MethodBase method)
    {
        byte[] code = method.GetMethodBody()?.GetILAsByteArray() ?? [];
        Type[]? ofType = method.DeclaringType is { IsGenericType: true } t ? t.GetGenericArguments() : null;
        Type[]? ofMethod = method is { IsGenericMethod: true } ? method.GetGenericArguments() : null;
        for (int i = 0; i < code.Length;)
        {
            OpCode operation = (code[i] == 0xFE ? TwoBytes[code[i + 1]] : OneByte[code[i]])
                ?? throw new InvalidOperationException($"no operation {code[i]:x2}");
            i += operation.Size;
            switch (operation.OperandType)
            {
                case OperandType.InlineField or OperandType.InlineMethod or OperandType.InlineTok or OperandType.InlineType:
                    if (method.Module.ResolveMember(BitConverter.ToInt32(code, i), ofType, ofMethod) is { } member)
                    {
                        yield return member;
                    }

                    i += 4;
                    break;
                case OperandType.InlineNone:
                    break;
                case OperandType.ShortInlineBrTarget or OperandType.ShortInlineI or OperandType.ShortInlineVar:
                    i += 1;
                    break;
                case OperandType.InlineVar:
                    i += 2;
                    break;
                case OperandType.InlineI8 or OperandType.InlineR:
                    i += 8;
                    break;
                case OperandType.InlineSwitch:
                    i += 4 + (4 * BitConverter.ToInt32(code, i));
                    break;
                default:
                    i += 4;
                    break;
            }
        }
    }

    private static IEnumerable<Type> Known(Type type)
    {
        List<Type?> known = [type.BaseType, .. type.GetInterfaces()];
        known.AddRange(type.GetFields(All).Select(static f => f.FieldType));
        known.AddRange(type.GetProperties(All).Select(static p => p.PropertyType));
        foreach (MethodBase method in type.GetMethods(All).Concat<MethodBase>(type.GetConstructors(All)))
        {
            known.AddRange(method.GetParameters().Select(static p => p.ParameterType));
            known.Add((method as MethodInfo)?.ReturnType);
            known.AddRange(method.GetMethodBody()?.LocalVariables.Select(static l => l.LocalType) ?? []);
            foreach (MemberInfo member in Named(method))
            {
                known.Add(member as Type ?? member.DeclaringType);
                known.Add(member switch
                {
                    FieldInfo field => field.FieldType,
                    MethodInfo called => called.ReturnType,
                    _ => null,
                });
                if (member is MethodInfo { IsGenericMethod: true } generic)
                {
                    known.AddRange(generic.GetGenericArguments());
                }
            }
        }

        return known.OfType<Type>();
    }

    private static IEnumerable<Type> Parts(Type type)
    {
        while (type.HasElementType)
        {
            type = type.GetElementType()!;
        }

        return type.IsGenericParameter
            ? []
            : type.IsGenericType ? [type.GetGenericTypeDefinition(), .. type.GetGenericArguments().SelectMany(Parts)]
            : [type];
    }

    private static Type Outermost(Type type)
    {
        while (type.DeclaringType is { } outer)
        {
            type = outer;
        }

        return type;
    }
}
