using System.Text.Json.Nodes;

namespace ServiceRules.Host.Description;

/// <summary>Says of members that may be missing that they may be missing: answers never hold a null.</summary>
internal static class LeftOut
{
    private const string Null = "null";

    public static void Where(JsonObject schemas)
    {
        foreach (var schema in schemas.Select(one => one.Value).OfType<JsonObject>())
        {
            if (schema["properties"] is not JsonObject properties)
            {
                continue;
            }

            foreach (var (name, member) in properties.ToList())
            {
                if (member is JsonObject told && Without(told) is { } stated)
                {
                    properties[name] = stated;
                    if (schema["required"] is JsonArray required)
                    {
                        _ = required.RemoveAll(one => one?.GetValue<string>() == name);
                    }
                }
            }
        }
    }

    // Null where it has to be there.
    private static JsonNode? Without(JsonObject member)
    {
        if (member["oneOf"] is JsonArray choices && choices.Any(IsNull))
        {
            return choices.First(choice => !IsNull(choice))!.DeepClone();
        }

        if (member["type"] is not JsonArray types || !types.Any(type => type?.GetValue<string>() == Null))
        {
            return null;
        }

        var stated = member.DeepClone().AsObject();
        var left = types
            .Where(type => type?.GetValue<string>() != Null)
            .Select(type => type!.DeepClone())
            .ToArray();
        stated["type"] = left.Length == 1 ? left[0] : new JsonArray(left);
        return stated;
    }

    private static bool IsNull(JsonNode? choice) =>
        choice is JsonObject stated && stated["type"] is JsonValue type && type.GetValue<string>() == Null;
}
