namespace Spurless.Radio.Paths;

/// <summary>A way of predicting the loss between two antennas. Implementations are immutable and safe for several threads.</summary>
public interface IPathModel
{
    /// <summary>The name as it stands in files and results.</summary>
    string Name { get; }

    /// <summary>Why it was taken; <see cref="PathChoice.AsGiven"/> unless nobody named it.</summary>
    PathChoice Choice => PathChoice.AsGiven;

    /// <summary>Predicts the loss.</summary>
    /// <param name="geometry">Where the antennas stand and what is known of them.</param>
    /// <returns>The loss, or why there is none; never an exception for a geometry of the user's.</returns>
    PathResult Predict(PathGeometry geometry);
}
