using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Judging;

/// <summary>
/// What the findings of one job do to their subjects: severity, what the rule says of unproven, waivers and
/// releases by a second person. Nobody lets out what they did themselves, nor without the register's word that they may.
/// </summary>
internal sealed class EffectRules
{
    private readonly JobFrame _frame;
    private readonly ImmutableHashSet<Id<Participant>> _workers;
    private readonly ImmutableHashSet<Id<Participant>> _excepted;
    private readonly Moment? _begun;

    public EffectRules(JobFrame frame)
    {
        _frame = frame;
        _workers = WhoDidTheWork.In(frame.Record);
        _excepted = OwnExceptions.Of(frame.Record);
        _begun = frame
            .Record.Timeline.Select(entry => entry.At)
            .Concat(frame.Record.Units.SelectMany(unit => unit.Entries).Select(entry => entry.At))
            .OfType<RecordedTime.Instant>()
            .Select(time => (Moment?)time.Moment)
            .Min();
    }

    /// <summary>What a verdict does to its subject.</summary>
    /// <param name="rule">The rule.</param>
    /// <param name="subject">What it was judged on.</param>
    /// <param name="verdict">The verdict.</param>
    /// <param name="isAsked">Whether the tasks ask for it: what they do not ask for holds nothing for want of proof.</param>
    public LetOut Of(Rule rule, Subject subject, Verdict verdict, bool isAsked = true)
    {
        var bare = Bare(rule, verdict, isAsked);
        if (bare is not (Effect.Hold or Effect.Stop))
        {
            return new LetOut(bare, null);
        }

        // What could hurt someone is put right, never waived: not where it is out, and not where nothing shows that it is in.
        if (rule.Severity is not Severity.Stop && WaiverOn(rule, subject) is { } waiver)
        {
            return new LetOut(
                Effect.Advise,
                $"waived by `{waiver.By}` until {Day(waiver.Until)}: {waiver.Reason}"
            );
        }

        return verdict == Verdict.Unproven && ReleaseOf(rule, subject) is { } release
            ? new LetOut(Effect.Advise, $"released by `{release.By}`: {release.Reason}")
            : new LetOut(bare, null);
    }

    /// <summary>Waivers and releases of this finding that do not count, told so that nobody wonders.</summary>
    public IEnumerable<string> Refused(Rule rule, Subject subject, Verdict verdict, bool isAsked = true)
    {
        var bare = Bare(rule, verdict, isAsked);
        if (bare is not (Effect.Hold or Effect.Stop))
        {
            yield break;
        }

        foreach (var waiver in Waivers(rule, subject))
        {
            if (rule.Severity is Severity.Stop)
            {
                yield return $"the waiver by `{waiver.By}` does not count: someone could be hurt, and that is never waived";
            }
            else if (Unentitled(waiver.By, waiver.From) is { } why)
            {
                yield return $"the waiver by `{waiver.By}` does not count: {why}";
            }
        }

        foreach (var release in Releases(rule, subject))
        {
            if (Unentitled(release) is { } why)
            {
                yield return $"the release by `{release.By}` does not count: {why}";
            }
            else if (IsBeforeTheJob(release))
            {
                yield return $"the release by `{release.By}` does not count: it is of {release.At.Text}, before the job's first entry";
            }
            else if (verdict == Verdict.NotMet)
            {
                yield return $"the release by `{release.By}` does not count: it is not met, not merely unproven";
            }
            else if (rule.Unproven != UnprovenPolicy.SecondPerson)
            {
                yield return $"the release by `{release.By}` does not count: this rule cannot be released by a second person";
            }
        }
    }

    /// <summary>Why a person may let nothing out on this job; null when they may.</summary>
    private string? Unentitled(SecondRelease release) =>
        Unentitled(release.By, _frame.Context.Zone.DayOf(release.At));

    private string? Unentitled(Id<Participant> person, DateOnly day) =>
        _workers.Contains(person) ? "they did the work themselves"
        : _excepted.Contains(person) ? "the exception from safe work in this job is their own"
        : _frame.Context.People.FirstOrDefault(known => known.Id == person) is not { } entry
            ? "the register of people does not have them"
        : entry.Left < day ? "they had left by then"
        : !entry.MayRelease ? "the register does not let them release anything"
        : null;

    private Effect Bare(Rule rule, Verdict verdict, bool isAsked) =>
        (verdict, rule.Severity) switch
        {
            (Verdict.Met or Verdict.NotApplicable, _) => Effect.None,
            (_, Severity.Advise) => Effect.Advise,
            _ when rule.Scope == RuleScope.Programme => Effect.Advise,
            (Verdict.NotMet, Severity.Stop) => Effect.Stop,
            (Verdict.NotMet, _) => Effect.Hold,
            _ when rule.Unproven == UnprovenPolicy.Advise || !isAsked => Effect.Advise,
            (_, Severity.Stop)
                when _frame.State == RecordState.Open && CheckReach.HandsGoInNext(rule.Check) => Effect.Stop,
            _ => Effect.Hold,
        };

    private Waiver? WaiverOn(Rule rule, Subject subject) =>
        Waivers(rule, subject)
            .Where(waiver => Unentitled(waiver.By, waiver.From) is null)
            .OrderByDescending(waiver => waiver.Until)
            .ThenBy(waiver => waiver.By)
            .ThenBy(waiver => waiver.Reason, StringComparer.Ordinal)
            .FirstOrDefault();

    private IEnumerable<Waiver> Waivers(Rule rule, Subject subject) =>
        _frame.Context.Waivers.Where(waiver =>
            string.Equals(waiver.Rule, rule.Id.Text, StringComparison.Ordinal)
            && waiver.From <= _frame.Record.Date
            && _frame.Record.Date <= waiver.Until
            && (waiver.Unit is null || IsUnit(subject, waiver.Unit))
        );

    private SecondRelease? ReleaseOf(Rule rule, Subject subject) =>
        rule.Unproven == UnprovenPolicy.SecondPerson
            ? Releases(rule, subject)
                .FirstOrDefault(release => Unentitled(release) is null && !IsBeforeTheJob(release))
            : null;

    /// <summary>Whether it was given before there was anything to look at. A time without an offset is not held against others.</summary>
    private bool IsBeforeTheJob(SecondRelease release) =>
        release.At is RecordedTime.Instant given && _begun is { } begun && given.Moment.CompareTo(begun) < 0;

    private IEnumerable<SecondRelease> Releases(Rule rule, Subject subject) =>
        _frame.Record.Releases.Where(release =>
            string.Equals(release.Rule, rule.Id.Text, StringComparison.Ordinal)
            && (release.Unit is not { } unit || IsUnit(subject, unit.Text))
        );

    private static bool IsUnit(Subject subject, string unit) =>
        subject is Subject.Unit one && string.Equals(one.Id.Text, unit, StringComparison.Ordinal);

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
