using System.Text.Json.Nodes;

namespace ServiceRules.Application.RuleCases;

/// <summary>A record with its context that cases start from; or why there is none.</summary>
/// <param name="Name">Its name.</param>
/// <param name="File">Its record, relative to the folder of rules.</param>
/// <param name="Record">The record as JSON.</param>
/// <param name="Context">The context as JSON.</param>
/// <param name="Problem">Why it cannot be read; empty when it can.</param>
internal sealed record Fixture(
    string Name,
    string File,
    JsonObject Record,
    JsonObject Context,
    string Problem
);
