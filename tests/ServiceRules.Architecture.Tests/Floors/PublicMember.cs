using System.Reflection;
using System.Runtime.CompilerServices;

namespace ServiceRules.Architecture.Tests.Floors;

/// <summary>One member that other assemblies can see, and the types in its signature.</summary>
internal sealed record PublicMember(string Name, IReadOnlyList<Type> Types)
{
    private const BindingFlags Declared =
        BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;

    public static IEnumerable<PublicMember> Of(Assembly assembly) =>
        assembly.GetExportedTypes().SelectMany(Of);

    private static IEnumerable<PublicMember> Of(Type type)
    {
        var name = NameOf(type);
        yield return new(name, [.. Parts(type.BaseType), .. type.GetInterfaces().SelectMany(Parts)]);
        foreach (var member in type.GetMembers(Declared).Where(IsWritten))
        {
            yield return new($"{name}.{member.Name}", [.. Signature(member).SelectMany(Parts)]);
        }
    }

    // What the compiler adds to a record repeats its properties.
    private static bool IsWritten(MemberInfo member) =>
        member switch
        {
            MethodInfo { Name: "Deconstruct" } => false,
            MethodInfo method => (
                !method.IsSpecialName || method.Name.StartsWith("op_", StringComparison.Ordinal)
            ) && method.GetCustomAttribute<CompilerGeneratedAttribute>() is null,
            Type => false,
            _ => true,
        };

    private static IEnumerable<Type> Signature(MemberInfo member) =>
        member switch
        {
            MethodInfo method => [method.ReturnType, .. method.GetParameters().Select(p => p.ParameterType)],
            ConstructorInfo constructor => constructor.GetParameters().Select(p => p.ParameterType),
            PropertyInfo property =>
            [
                property.PropertyType,
                .. property.GetIndexParameters().Select(p => p.ParameterType),
            ],
            FieldInfo field => [field.FieldType],
            EventInfo happening => [happening.EventHandlerType!],
            _ => [],
        };

    private static IEnumerable<Type> Parts(Type? type)
    {
        if (type is null)
        {
            return [];
        }

        return type.HasElementType
            ? Parts(type.GetElementType())
            : [type, .. type.GenericTypeArguments.SelectMany(Parts)];
    }

    private static string NameOf(Type type) =>
        type.IsNested ? $"{NameOf(type.DeclaringType!)}.{type.Name}" : type.Name;
}
