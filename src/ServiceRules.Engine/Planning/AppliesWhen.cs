using System.Globalization;
using ServiceRules.Engine.Inference;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Planning;

/// <summary>
/// One applicability of a configuration, as a condition of the network. Two are equal when scope and every part
/// are, lists compared as sets.
/// </summary>
internal sealed class AppliesWhen : ICondition<SubjectProfile>, IEquatable<AppliesWhen>
{
    private readonly RuleScope _scope;
    private readonly Applicability _when;
    private readonly string _text;

    public AppliesWhen(RuleScope scope, Applicability when)
    {
        _scope = scope;
        _when = when;
        _text = TextOf(scope, when);
    }

    public bool Holds(SubjectProfile fact) => fact.Satisfies(_scope, _when);

    public bool Equals(AppliesWhen? other) =>
        other is not null && string.Equals(_text, other._text, StringComparison.Ordinal);

    public override bool Equals(object? obj) => Equals(obj as AppliesWhen);

    public override int GetHashCode() => StringComparer.Ordinal.GetHashCode(_text);

    public override string ToString() => _text;

    private static string TextOf(RuleScope scope, Applicability when) =>
        string.Join(
            ' ',
            $"scope={scope}",
            $"tasks={Set(when.Tasks.Select(t => t.ToString()))}",
            $"orRead={Set(when.OrRead.Select(q => q.ToString()))}",
            $"sheets={Set(when.Sheets)}",
            $"bedknife={when.Bedknife}",
            $"attachments={Set(when.Attachments.Select(a => a.ToString()))}",
            $"areas={Set(when.Areas)}",
            $"place={when.Place}",
            $"isolation={when.Isolation}",
            $"school={when.School}",
            $"turned={Set(when.AnyTurned.Select(a => a.ToString()))}",
            $"read={Set(when.AnyRead.Select(q => q.ToString()))}",
            $"along={Set(when.AnyReadAlong.Select(q => q.ToString()))}",
            $"ground={when.Ground}",
            $"states={when.SheetStates}",
            $"from={Day(when.From)}",
            $"until={Day(when.Until)}"
        );

    // Lengths in front of the members, since area names are free text.
    private static string Set(IEnumerable<string> members) =>
        string.Concat(
            members
                .Distinct(StringComparer.Ordinal)
                .Order(StringComparer.Ordinal)
                .Select(text => string.Create(CultureInfo.InvariantCulture, $"{text.Length}:{text};"))
        );

    private static string Day(DateOnly? day) =>
        day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? string.Empty;
}
