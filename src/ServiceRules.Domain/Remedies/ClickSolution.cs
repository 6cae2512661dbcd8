using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>What to turn, or why turning cannot do it. A closed family of two.</summary>
public abstract record ClickSolution
{
    private ClickSolution() { }

    /// <summary>Turn these steps.</summary>
    /// <param name="LeftSteps">Net steps on the left; positive opens.</param>
    /// <param name="RightSteps">Net steps on the right; positive opens.</param>
    /// <param name="Sequence">Every single step in the order to turn it, going too far and back included.</param>
    /// <param name="Landings">Every station, and the two ends where a line reaches them, from left to right.</param>
    /// <param name="LargestDeviation">The largest distance from the target over the places that must hold.</param>
    public sealed record Plan(
        int LeftSteps,
        int RightSteps,
        ImmutableArray<SingleStep> Sequence,
        ImmutableArray<Landing> Landings,
        Length LargestDeviation
    ) : ClickSolution
    {
        /// <summary>How many steps are turned in all.</summary>
        public int TotalSteps => Sequence.Length;
    }

    /// <summary>No whole number of steps does it.</summary>
    /// <param name="Binding">What stands in the way.</param>
    /// <param name="Nearest">The setting that misses by least; none when the ends are unknown or a side of the zone is.</param>
    public sealed record Infeasible(BindingConstraint Binding, NearestSetting? Nearest) : ClickSolution
    {
        /// <summary>Whether nothing touches as it stands: then opening until free would help nothing.</summary>
        public bool StartsFree { get; init; }

        /// <summary>What would help, in plain words.</summary>
        public string WouldHelp =>
            Binding switch
            {
                BindingConstraint.EndsUnknown => "read a second station, near the other end",
                BindingConstraint.KnowledgeTooWide =>
                    "read again with a finer gauge or a closer pair of feelers",
                BindingConstraint.Straightness => "grind: a bow cannot be adjusted out",
                BindingConstraint.LinesApart =>
                    "straighten the blades that stand apart, or grind the reel: no adjuster moves one blade alone",
                BindingConstraint.Travel =>
                    "look at how the unit sits, and reposition or shim it, before anything is turned",
                BindingConstraint.StepSize => "shim by less than a step, or check the limit against the step",
                BindingConstraint.ContactAtTheEnd =>
                    "check the limit: it asks for contact where none is wanted",
                BindingConstraint.ContactOnTheWay when StartsFree =>
                    "it is free as it stands, but the way into the limits, any step past them and back included, goes through contact: set what comes nearest, read it again, and see why a step moves so much, or shim by less than a step",
                BindingConstraint.ContactOnTheWay =>
                    "open both sides until free first, then read and set again",
                _ => throw new InvalidOperationException("every binding constraint has its advice"),
            };
    }
}
