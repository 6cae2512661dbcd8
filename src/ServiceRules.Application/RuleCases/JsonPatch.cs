using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.JsonPatch.SystemTextJson;
using Microsoft.AspNetCore.JsonPatch.SystemTextJson.Exceptions;
using ServiceRules.Formats.Cases;

namespace ServiceRules.Application.RuleCases;

/// <summary>Applies the patch of a case (RFC 6902) to a copy of a fixture.</summary>
internal static class JsonPatch
{
    /// <summary>The patched copy, or nothing with why not.</summary>
    public static JsonObject? Applied(
        JsonObject document,
        ImmutableArray<PatchStep> steps,
        out string problem
    )
    {
        problem = "";
        JsonObject patched = document.DeepClone().AsObject();
        if (steps.IsEmpty)
        {
            return patched;
        }

        List<string> problems = [];
        try
        {
            JsonPatchDocument patch = TextOf(steps).Deserialize<JsonPatchDocument>()!;
            patch.ApplyTo(patched, error => problems.Add(error.ErrorMessage));
        }
        catch (Exception wrong) when (wrong is JsonPatchException or JsonException)
        {
            problems.Add(wrong.Message);
        }

        problem = string.Join("; ", problems);
        return problems.Count == 0 ? patched : null;
    }

    private static JsonArray TextOf(ImmutableArray<PatchStep> steps) =>
        [
            .. steps.Select(step =>
            {
                JsonObject operation = new()
                {
                    ["op"] = step.Operation.ToString().ToLowerInvariant(),
                    ["path"] = step.Path,
                };
                if (step.From is not null)
                {
                    operation["from"] = step.From;
                }

                if (step.Value is not null)
                {
                    operation["value"] = step.Value.DeepClone();
                }

                return operation;
            }),
        ];
}
