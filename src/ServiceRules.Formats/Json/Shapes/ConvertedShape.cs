using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Domain.Quantities;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>A value that another shape carries, read further by a function of the domain that may refuse it.</summary>
internal sealed class ConvertedShape<TCarrier, T>(
    JsonShape<TCarrier> carrier,
    Func<TCarrier, Parsed<T>> read,
    Func<T, TCarrier> print
) : JsonShape<T>
    where TCarrier : notnull
    where T : notnull
{
    public override string Description => carrier.Description;

    public override bool TryRead(SourceNode node, ReadContext context, [NotNullWhen(true)] out T? value)
    {
        value = default;
        if (!carrier.TryRead(node, context, out TCarrier? carried))
        {
            return false;
        }

        if (read(carried).TryGet(out value, out ParseFailure? failure))
        {
            return true;
        }

        string found = node.Kind is SourceKind.Object or SourceKind.List
            ? FoundText.Of(failure.Found)
            : node.Shown;
        context.Report(node, ProblemCode.Unreadable, failure.Problem, found, failure.Accepted);
        return false;
    }

    public override void Write(Utf8JsonWriter writer, T value) => carrier.Write(writer, print(value));

    public override JsonObject ToSchema(SchemaDefinitions definitions) => carrier.ToSchema(definitions);
}
