using System.Diagnostics.CodeAnalysis;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>Takes a member's value out of its owner; false when the member is left out.</summary>
internal delegate bool TryPresent<in TObject, T>(TObject owner, [NotNullWhen(true)] out T? value)
    where T : notnull;
