using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Verdicts;

/// <summary>What a finding speaks of. A closed family with a total order by <see cref="Key"/>.</summary>
public abstract record Subject
{
    private Subject() { }

    /// <summary>Stable text that orders and identifies subjects.</summary>
    public abstract string Key { get; }

    /// <summary>The whole job.</summary>
    public sealed record Job : Subject
    {
        /// <inheritdoc/>
        public override string Key => "job";
    }

    /// <summary>How the site runs its programme: judged with the job, and told apart from it.</summary>
    public sealed record Programme : Subject
    {
        /// <inheritdoc/>
        public override string Key => "programme";
    }

    /// <summary>The units of the machine together.</summary>
    public sealed record Set : Subject
    {
        /// <inheritdoc/>
        public override string Key => "set";
    }

    /// <summary>One unit.</summary>
    public sealed record Unit(Id<UnitWork> Id) : Subject
    {
        /// <inheritdoc/>
        public override string Key => "unit/" + Id.Text;
    }
}
