using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Keeping;

/// <summary>Something is kept whatever falls due, and whoever asks for it to be forgotten.</summary>
/// <param name="Id">What it is called.</param>
/// <param name="Entry">Since when, by whom and why.</param>
/// <param name="Scope">What is kept; null where that was erased after it was lifted.</param>
/// <param name="Lifted">The entry that lifted it; null while it holds.</param>
public sealed record Hold(string Id, FiledEntry Entry, HoldDocument? Scope, FiledEntry? Lifted)
{
    /// <summary>Whether it is in force.</summary>
    public bool Holds => Lifted is null;

    /// <summary>What it keeps, in words.</summary>
    public string Told =>
        Scope is null
            ? "what it named was erased since"
            : string.Join(
                ", ",
                new[]
                {
                    Part("record", Scope.Record),
                    Part("machine", Scope.Machine),
                    Part("person", Scope.Person),
                    Part("from", Day(Scope.From)),
                    Part("until", Day(Scope.Until)),
                }.OfType<string>()
            );

    private static string? Part(string what, string? value) => value is null ? null : $"{what} {value}";

    private static string? Day(DateOnly? day) =>
        day?.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
}
