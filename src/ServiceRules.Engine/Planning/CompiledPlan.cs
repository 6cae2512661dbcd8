using System.Collections.Immutable;
using ServiceRules.Engine.Applying;
using ServiceRules.Engine.Inference;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Planning;

/// <summary>
/// The rules of one configuration, ready to say which of them apply. Compiled once and shared by all threads; what
/// applied to a profile is remembered.
/// </summary>
internal sealed class CompiledPlan
{
    // A shop has a handful of kinds of unit and tasks; mixtures of them stay in the hundreds.
    private const int MostProfiles = 4096;

    private readonly BoundedCache<SubjectProfile, ApplicableRules> _applicable = new(MostProfiles);
    private readonly ImmutableArray<ImmutableArray<Rule>> _byApplicability;
    private readonly InferenceNetwork? _network;
    private readonly DateSlots _slots;

    private CompiledPlan(
        ImmutableArray<ImmutableArray<Rule>> byApplicability,
        InferenceNetwork? network,
        DateSlots slots
    )
    {
        _byApplicability = byApplicability;
        _network = network;
        _slots = slots;
    }

    /// <summary>One production for each different applicability, however many rules share it.</summary>
    public static CompiledPlan Compile(ImmutableArray<Rule> rules)
    {
        var groups = Groups(rules);
        var network = groups.IsEmpty
            ? null
            : InferenceNetwork.Compile(Productions(groups), mostFirings: groups.Length);
        return new([.. groups.Select(group => group.ToImmutableArray())], network, new DateSlots(rules));
    }

    internal static ImmutableArray<Production> Productions(ImmutableArray<Rule> rules) =>
        Productions(Groups(rules));

    private static ImmutableArray<Production> Productions(
        ImmutableArray<IGrouping<AppliesWhen, Rule>> groups
    ) =>
        [
            .. groups.Select(
                (group, number) => Production.When(group.Key.ToString(), group.Key, new Match(number))
            ),
        ];

    private static ImmutableArray<IGrouping<AppliesWhen, Rule>> Groups(ImmutableArray<Rule> rules) =>
        [.. rules.GroupBy(rule => new AppliesWhen(rule.Scope, rule.When))];

    /// <summary>Which rules apply to each unit, to the set, to the job and to the programme behind it.</summary>
    public IEnumerable<RuleOnSubject> For(JobFrame frame)
    {
        var units = frame.Units.Select(unit => new UnitTraits(unit)).ToImmutableArray();
        var tasks = JobTraits.TasksOf(frame.Record, units);
        foreach (var scope in (RuleScope[])[RuleScope.Job, RuleScope.Programme, RuleScope.Set])
        {
            foreach (var rule in Applicable(SubjectProfile.OfAll(scope, units, frame, _slots)))
            {
                yield return new RuleOnSubject(rule, null, JobTraits.Ask(rule.When, tasks));
            }
        }

        for (var index = 0; index < units.Length; index++)
        {
            foreach (var rule in Applicable(SubjectProfile.OfUnit(units[index], frame, _slots)))
            {
                yield return new RuleOnSubject(
                    rule,
                    frame.Units[index],
                    JobTraits.Ask(rule.When, units[index].Tasks)
                );
            }
        }
    }

    private ImmutableArray<Rule> Applicable(SubjectProfile profile) =>
        _applicable.GetOrMake(profile, () => Ask(profile)).Rules;

    private ApplicableRules Ask(SubjectProfile profile) =>
        new(
            _network is null
                ? []
                :
                [
                    .. _network
                        .Run([profile])
                        .OfType<Matched>()
                        .SelectMany(matched => _byApplicability[matched.Applicability])
                        .OrderBy(rule => rule.Id),
                ]
        );

    private sealed record ApplicableRules(ImmutableArray<Rule> Rules);
}
