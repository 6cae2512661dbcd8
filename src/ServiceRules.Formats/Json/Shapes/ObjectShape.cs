using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>An object with known members and no others.</summary>
public sealed class ObjectShape<T> : JsonShape<T>
    where T : notnull
{
    private readonly string name;
    private readonly IReadOnlyList<Member<T>> members;
    private readonly IReadOnlyList<MemberCheck> checks;
    private readonly IReadOnlyList<PresenceRule> presence;
    private readonly Func<MemberValues, T> build;
    private readonly Dictionary<string, int> positions = new(StringComparer.Ordinal);

    internal ObjectShape(
        string name,
        string description,
        Func<ObjectMembers<T>, Func<MemberValues, T>> describe
    )
    {
        this.name = name;
        Description = description;
        ObjectMembers<T> registered = new();
        build = describe(registered);
        members = registered.All;
        checks = registered.Checks;
        presence = registered.Presence;
        foreach (Member<T> member in members)
        {
            positions.Add(member.Name, positions.Count);
        }
    }

    public override string Description { get; }

    internal string Name => name;

    public override bool TryRead(SourceNode node, ReadContext context, [NotNullWhen(true)] out T? value) =>
        TryRead(node, context, [], out value);

    public override void Write(Utf8JsonWriter writer, T value)
    {
        writer.WriteStartObject();
        WriteMembers(writer, value);
        writer.WriteEndObject();
    }

    public override JsonObject ToSchema(SchemaDefinitions definitions) =>
        definitions.Refer(name, this, () => Body(definitions, null));

    internal void WriteMembers(Utf8JsonWriter writer, T value)
    {
        foreach (Member<T> member in members)
        {
            member.Write(writer, value);
        }
    }

    /// <param name="markers">Members that were read already and tell what kind of object this is.</param>
    internal bool TryRead(
        SourceNode node,
        ReadContext context,
        string[] markers,
        [NotNullWhen(true)] out T? value
    )
    {
        if (node.Kind != SourceKind.Object)
        {
            return WrongType(node, context, "an object", out value);
        }

        object?[] values = new object?[members.Count];
        bool[] present = new bool[members.Count];
        bool whole = true;
        foreach (SourceNode child in node.Children)
        {
            if (positions.TryGetValue(child.Name!, out int at))
            {
                present[at] = true;
                whole &= members[at].TryRead(child, context, out values[at]);
            }
            else if (!markers.Contains(child.Name))
            {
                string[] known = [.. positions.Keys];
                context.ReportName(
                    child,
                    ProblemCode.UnknownName,
                    "this name is not known here",
                    () => WordList.OneOf(child.Name!, known, "no members")
                );
                whole = false;
            }
        }

        whole &= FillAbsent(node, context, values, present) & HasPresence(node, context);
        value = default;
        return whole && TryBuild(node, context, new(values), out value);
    }

    /// <summary>The schema of the object itself, with a marker that must have one value when it is a case of a variant.</summary>
    internal JsonObject Body(SchemaDefinitions definitions, (string Name, string Value)? marker)
    {
        JsonObject properties = [];
        JsonArray required = [];
        if (marker is { } fixedMember)
        {
            properties[fixedMember.Name] = new JsonObject
            {
                ["const"] = fixedMember.Value,
                ["description"] = Description,
            };
            required.Add(fixedMember.Name);
        }

        foreach (Member<T> member in members)
        {
            properties[member.Name] = member.ToSchema(definitions);
            if (member.IsRequired)
            {
                required.Add(member.Name);
            }
        }

        JsonObject schema = new() { ["type"] = "object", ["description"] = Description };
        schema["properties"] = properties;
        if (required.Count > 0)
        {
            schema["required"] = required;
        }

        schema["additionalProperties"] = false;
        if (presence.Count > 0)
        {
            schema["allOf"] = new JsonArray([.. presence.Select(rule => rule.State())]);
        }

        return schema;
    }

    private bool HasPresence(SourceNode node, ReadContext context)
    {
        bool whole = true;
        foreach (PresenceRule rule in presence)
        {
            if (!rule.Holds(node))
            {
                whole = false;
                SourceNode at = rule.At is null ? node : node.Member(rule.At)!;
                context.Report(at, ProblemCode.MissingName, rule.What, rule.Accepted);
            }
        }

        return whole;
    }

    private bool FillAbsent(SourceNode node, ReadContext context, object?[] values, bool[] present)
    {
        bool whole = true;
        for (int at = 0; at < members.Count; at++)
        {
            Member<T> member = members[at];
            if (!present[at] && member.IsRequired)
            {
                whole = false;
                context.ReportMissing(node, member.Name, member.Description);
            }
            else if (!present[at])
            {
                values[at] = member.Absent;
            }
        }

        return whole;
    }

    private bool TryBuild(
        SourceNode node,
        ReadContext context,
        MemberValues values,
        [NotNullWhen(true)] out T? value
    )
    {
        bool whole = true;
        foreach (MemberCheck check in checks)
        {
            if (!check.Holds(values))
            {
                whole = false;
                context.Report(
                    node.Member(check.At) ?? node,
                    ProblemCode.Contradiction,
                    check.What,
                    check.Accepted
                );
            }
        }

        value = whole ? build(values) : default;
        return whole;
    }
}
