using ServiceRules.Domain.Records;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>
/// Whatever the task, some rule judges each kind of unit: where none does, every such job would be held, and people
/// should know before the first one is.
/// </summary>
internal static class TaskReachCheck
{
    private const string UnreachedReason = "no-rule";

    public static void Run(RuleLibrary library, Remarks remarks)
    {
        var rules = library
            .Packs.Where(pack => pack.Pack.Layer is not PackLayer.Jurisdiction)
            .SelectMany(pack => pack.Rules)
            .Select(rule => rule.Value)
            .Where(rule => rule.Scope is RuleScope.Unit && AsksOnlyKindAndTask(rule.When))
            .ToList();
        if (library.Packs.IsEmpty)
        {
            return;
        }

        foreach (var sheet in library.Sheets)
        {
            var missed = Enum.GetValues<ServiceTask>()
                .Where(task => !rules.Exists(rule => Reaches(rule.When, sheet.Value, task)))
                .Select(task => $"`{FileWord.Of(task)}`")
                .ToList();
            if (missed.Count > 0)
            {
                remarks.Notice(
                    DiagnosticCode.TaskNotReached,
                    sheet,
                    "",
                    $"no rule judges a unit of this kind whatever was done to it on {string.Join(", ", missed)}: such a job may be held as `{UnreachedReason}`",
                    "a rule of scope `unit` that asks for no more than these tasks and this kind of unit"
                );
            }
        }
    }

    /// <summary>What was turned, read or ground, where, when and with what fitted differs from job to job.</summary>
    private static bool AsksOnlyKindAndTask(Applicability when) =>
        when
            is {
                Attachments.IsEmpty: true,
                Areas.IsEmpty: true,
                AnyTurned.IsEmpty: true,
                AnyRead.IsEmpty: true,
                AnyReadAlong.IsEmpty: true,
                Place: null,
                Isolation: null,
                School: null,
                Ground: null,
                From: null,
                Until: null,
            };

    private static bool Reaches(Applicability when, LimitSheet sheet, ServiceTask task) =>
        (when.Tasks.IsEmpty || when.Tasks.Contains(task)) && RuleReachCheck.Reaches(when, sheet);
}
