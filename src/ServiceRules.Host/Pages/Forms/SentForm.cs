using Microsoft.AspNetCore.Http;
using ServiceRules.Formats.Json;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Pages.Forms;

/// <summary>What somebody filled in, and what is wrong with it: shown again, at its fields.</summary>
public sealed class SentForm
{
    private const int FoundLength = 64;

    private readonly Dictionary<string, string> values = new(StringComparer.Ordinal);
    private readonly List<FieldFault> faults = [];

    private SentForm(string form) => Form = form;

    /// <summary>Which form of its page it is.</summary>
    public string Form { get; }

    public IReadOnlyList<FieldFault> Faults => faults;

    public bool IsRefused => faults.Count > 0;

    internal static SentForm Of(string form, IFormCollection fields)
    {
        var sent = new SentForm(form);
        foreach (var (name, value) in fields)
        {
            sent.values[name] = value.ToString().Replace("\r\n", "\n", StringComparison.Ordinal).Trim();
        }

        return sent;
    }

    /// <summary>The element of a field, for labels and for ways to it.</summary>
    public static string ElementOf(string form, string field) => $"{form}-{field}";

    /// <summary>Empty where nothing was filled in.</summary>
    public string Value(string field) => values.GetValueOrDefault(field, "");

    /// <summary>Null where nothing was filled in.</summary>
    public string? Given(string field) => Value(field) is { Length: > 0 } value ? value : null;

    /// <summary>What is wrong at a field; null: nothing.</summary>
    public string? Wrong(string field) => faults.Find(fault => fault.Field == field)?.What;

    internal void RefuseAt(string field, string what) => faults.Add(new(field, what));

    internal void Refuse(string what, string? accepted, string field = "") =>
        RefuseAt(field, Sentence(what, "", accepted));

    /// <summary>What is wrong with the document that was made of the fields, at the field of the same name where there is one.</summary>
    internal void Refuse(IEnumerable<Problem> problems, params string[] fields)
    {
        foreach (var problem in problems)
        {
            var name = problem.Pointer[(problem.Pointer.LastIndexOf('/') + 1)..];
            RefuseAt(
                fields.Contains(name, StringComparer.Ordinal) ? name : "",
                Sentence(problem.What, problem.Found, problem.Accepted)
            );
        }
    }

    internal static string Sentence(string what, string found, string? accepted) =>
        char.ToUpperInvariant(what[0])
        + what[1..]
        + (found.Length == 0 ? "" : $" (`{Shortened.To(found, FoundLength)}`)")
        + (string.IsNullOrEmpty(accepted) ? "." : $"; accepted: {accepted}.");
}
